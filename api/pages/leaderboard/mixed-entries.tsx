import type { LeaderboardOut } from "../../wire/leaderboard.ts";
import { AEROSOL_WORDS } from "../aerosol-words.ts";
import { CleanerTitle } from "../cleaner-name.tsx";
import { testWords } from "../counts.ts";
import { Quantity } from "../quantity.tsx";
import { WhoPaid } from "../who-paid.tsx";

interface Props {
  readonly board: LeaderboardOut;
  readonly aerosol: keyof typeof AEROSOL_WORDS;
}

/** Those that a list for one aerosol leaves out, by name, with what they did with it alone. */
export function MixedEntries({ board: { mixed, band, excluded }, aerosol }: Props) {
  if (mixed.length === 0) return null;
  const more = (excluded.mixed_aerosol ?? 0) - mixed.length;
  return (
    <ul class="mixed">
      {mixed.map(({ configuration, setting, invented, own }) => (
        <li>
          <a href={`/configurations/${configuration.id}?${new URLSearchParams({ setting, band })}`}>
            <CleanerTitle title={configuration.title} setting={setting} />
          </a>
          {invented && (
            <>
              {" · "}
              <em>invented</em>
            </>
          )}
          {own && (
            <>
              {`: with ${AEROSOL_WORDS[aerosol]} alone `}
              <Quantity of={own.cadr} />, from {testWords(own)}; <WhoPaid interest={own.interest} />
            </>
          )}
        </li>
      ))}
      {more > 0 && <li>and {more} more</li>}
    </ul>
  );
}
