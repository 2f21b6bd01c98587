import type { ComparisonOut } from "../../wire/comparison.ts";
import { CleanerTitle } from "../cleaner-name.tsx";
import { Quantity } from "../quantity.tsx";
import { letterOf } from "./letters.ts";
import { chanceWords, differenceWords, noiseWords, roomWords } from "./pair-words.ts";

type Pair = ComparisonOut["pairs"][number];

/** Two results against each other. */
export function PairSection({ pair, comparison }: { readonly pair: Pair; readonly comparison: ComparisonOut }) {
  const letter = letterOf(comparison);
  const [a, b] = [letter(pair.a), letter(pair.b)];
  return (
    <section>
      <h3>
        {a}, <Title of={pair.a} among={comparison} />, against {b}, <Title of={pair.b} among={comparison} />
      </h3>
      <dl>
        <dt>Clean air</dt>
        <dd>
          {pair.difference && (
            <>
              {a} less {b}: <Quantity of={pair.difference} />.{" "}
            </>
          )}
          {differenceWords(pair, a, b)}
        </dd>
        <dt>How sure</dt>
        <dd>{chanceWords(pair.p_stronger, a, b)}</dd>
        <dt>Rooms</dt>
        <dd>{roomWords(pair.paired_rooms)}</dd>
        <dt>Noise at 1 m</dt>
        <dd>
          {pair.noise_difference && (
            <>
              {a} less {b}: <Quantity of={pair.noise_difference} />.{" "}
            </>
          )}
          {noiseWords(pair, a, b)}
        </dd>
        <dt>Parts</dt>
        <dd>
          <Differences of={pair.parts} whose={a} none="The same, as far as they are described." />
        </dd>
        <dt>Tests</dt>
        <dd>
          <Differences of={pair.conditions} none="Made alike, as far as it is known." />
        </dd>
      </dl>
    </section>
  );
}

function Title({ of, among }: { readonly of: string; readonly among: ComparisonOut }) {
  const entry = among.entries.find(({ id }) => id === of);
  return entry ? <CleanerTitle title={entry.configuration.title} setting={entry.setting} /> : null;
}

function Differences({ of, none, whose }: { of: readonly string[]; none: string; whose?: string }) {
  if (of.length === 0) return <>{none}</>;
  return (
    <>
      {whose && `${whose} has: `}
      {of.map((words, i) => (
        <>
          {i > 0 && "; "}
          <bdi>{words}</bdi>
        </>
      ))}
      .
    </>
  );
}
