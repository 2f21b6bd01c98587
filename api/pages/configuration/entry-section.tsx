import type { Child } from "hono/jsx";
import type { EntryOut } from "../../wire/entry.ts";
import { testWords } from "../counts.ts";
import { bandPhrase } from "../figures.ts";
import { Moved } from "../moved.tsx";
import { Between, Quantity } from "../quantity.tsx";
import type { FlowUnit } from "../reader.ts";
import { WhoPaid } from "../who-paid.tsx";
import { AerosolTable } from "./aerosol-table.tsx";
import { EntryFacts } from "./entry-facts.tsx";
import { limitsOf, spreadWords } from "./pooled-words.ts";
import { Rooms } from "./rooms.tsx";
import { TrialList } from "./trial-list.tsx";

interface Props {
  readonly entry: EntryOut;
  readonly flow: FlowUnit;
  /** The way to its quotation, where that stands on another page. */
  readonly quoting?: Child;
}

/** All there is to say of one entry over all its tests: the figure, what it may not claim, its cost, rooms, aerosols, tests. */
export function EntrySection({ entry, flow, quoting }: Props) {
  const basis = entry.bases.all;
  if (!basis?.cadr) {
    return (
      <>
        <p>No test of it counts at present, so there is no figure.</p>
        <TrialList entry={entry} />
      </>
    );
  }
  return (
    <>
      <p class="figure">
        <Quantity of={basis.cadr} />
      </p>
      {quoting && <p class="unprinted">{quoting}</p>}
      <p>
        Who paid: <WhoPaid interest={basis.interest} />
      </p>
      <p>
        Clean air delivery rate (CADR) for {bandPhrase(entry.band)}, from {testWords(basis)}. The 95&nbsp;% interval is
        about the mean that many laboratories would find.
      </p>
      {basis.prediction && (
        <p>
          In another room, by another counter: <Between of={basis.prediction} />, where it is expected to lie 95 times
          in 100; a test there adds its own uncertainty.
        </p>
      )}
      {basis.left_out_change && (
        <p>
          Leaving out any one tester moves it <Moved by={basis.left_out_change} />
        </p>
      )}
      <Limits of={limitsOf(basis)} />
      <EntryFacts entry={entry} basis={basis} flow={flow} />
      <Rooms entry={entry} basis={basis} />
      <p>
        {spreadWords(basis)} <a href="/method">How figures are pooled</a>
      </p>
      <AerosolTable entry={entry} />
      <TrialList entry={entry} />
    </>
  );
}

function Limits({ of }: { readonly of: readonly string[] }) {
  if (of.length === 0) return null;
  return (
    <ul class="limits" aria-label="What limits this figure">
      {of.map((words) => (
        <li>{words}</li>
      ))}
    </ul>
  );
}
