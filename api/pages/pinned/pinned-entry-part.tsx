import type { PinnedEntry, PinnedResult } from "../../wire/pinned.ts";
import { AEROSOL_WORDS } from "../aerosol-words.ts";
import { BASIS_WORDS } from "../basis-words.ts";
import { testWords } from "../counts.ts";
import { Moved } from "../moved.tsx";
import { percentOf } from "../percent.ts";
import { Between, inUnit, Missing } from "../quantity.tsx";
import type { Reader } from "../reader.ts";
import { seriousWords } from "../serious.tsx";
import { WhoPaid } from "../who-paid.tsx";
import { Members } from "./members.tsx";

interface Props {
  readonly result: PinnedResult;
  readonly pinned: PinnedEntry;
  readonly reader: Reader;
}

/** What an entry's tests came to, and which they were. */
export function PinnedEntryPart({ result, pinned, reader }: Props) {
  const { prediction, left_out_change: change, spread } = pinned;
  const aerosols = Object.entries(pinned.aerosols).map(([kind, count]) => {
    return `${count} × ${(AEROSOL_WORDS as Readonly<Record<string, string>>)[kind] ?? kind}`;
  });
  return (
    <>
      <p>
        Clean air delivery rate (CADR) from {testWords(pinned)}. The 95&nbsp;% interval is about the mean that many
        laboratories would find.
      </p>
      {pinned.serious > 0 && (
        <p role="note" class="caution">
          Before you quote it: {seriousWords(pinned)}, which may make the figure wrong.
        </p>
      )}
      <dl>
        <dt>Who paid</dt>
        <dd>
          <WhoPaid interest={pinned.interest} />
        </dd>
        <dt>Tests that count</dt>
        <dd>{BASIS_WORDS[pinned.basis]}</dd>
        <dt>Aerosol</dt>
        <dd>{aerosols.join(", ")}</dd>
        <dt>In another room</dt>
        <dd>
          {prediction ? (
            <Between of={inUnit({ ...prediction, value: prediction.low }, reader.flow)} />
          ) : (
            <Missing why="not worked out" />
          )}
          , where another room and counter are expected, 95&nbsp;%
        </dd>
        <dt>Laboratories differ by</dt>
        <dd>
          a standard deviation of {percentOf(pinned.tau ?? spread.relative)}
          {spread.source === "assumed" ? ", which leans on what is assumed of all cleaners" : ""}
        </dd>
        <dt>Without any one tester</dt>
        <dd>
          {change ? (
            <>
              moves <Moved by={inUnit({ ...change, low: change.value, high: change.value }, reader.flow)} />
            </>
          ) : (
            <Missing why="all tests are one tester’s" />
          )}
        </dd>
      </dl>
      <Members result={result} pinned={pinned} />
    </>
  );
}
