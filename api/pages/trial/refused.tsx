import type { TrialView } from "../../views.ts";
import { BAND_WORDS } from "../figures.ts";
import { Quantity } from "../quantity.tsx";
import { bandWords } from "./record-words.ts";

/** What gave no rate, and why; and the natural losses that were seen all the same. */
export function Refused({ analysis: { refusals, naturals } }: TrialView) {
  if (refusals.length === 0 && naturals.length === 0) return null;
  const groups = Map.groupBy(refusals, ({ message }) => message);
  return (
    <section class="refused">
      <h2>What gave no rate</h2>
      <ul>
        {[...groups].map(([message, same]) => (
          <li>
            {same.map(({ band, run }, i) => (
              <>
                {i > 0 && ", "}
                <bdi>{nameOf(band, run)}</bdi>
              </>
            ))}
            : {message}.
          </li>
        ))}
        {naturals.map(({ band, k, half_life: halfLife }) => (
          <li>
            <bdi>{bandWords(band)}</bdi>: natural loss alone, <Quantity of={k} />, half-life{" "}
            <Quantity of={halfLife} ranged missing="not told: the loss may be 0" />.
          </li>
        ))}
      </ul>
    </section>
  );
}

function nameOf(band: string | null, run: number | null): string {
  const what = band === null ? null : (BAND_WORDS[band] ?? band.slice(band.indexOf("/") + 1));
  return [what, run === null ? null : `log ${run + 1}`].filter(Boolean).join(", ") || "the whole trial";
}
