import { conditionDifferences } from "../../trial-conditions.ts";
import type { Compared, ComparisonOut } from "../../wire/comparison.ts";
import { CleanerTitle } from "../cleaner-name.tsx";
import { KIND_WORDS } from "../kind-words.ts";
import { Quantity } from "../quantity.tsx";
import { conditionWords } from "./condition-words.ts";
import { letterOf } from "./letters.ts";
import { chanceWords, differenceWords, noiseWords, powerWords, priceWords, roomWords } from "./pair-words.ts";

type Pair = ComparisonOut["pairs"][number];

/** Two results against each other. */
export function PairSection({ pair, comparison }: { readonly pair: Pair; readonly comparison: ComparisonOut }) {
  const letter = letterOf(comparison);
  const [a, b] = [letter(pair.a), letter(pair.b)];
  const [one, other] = [pair.a, pair.b].map((id) => comparison.entries.find((entry) => entry.id === id)!) as [
    Compared,
    Compared,
  ];
  const [mine, theirs] = [one, other].map(({ configuration }) => KIND_WORDS[configuration.kind]);
  const kinds = mine === theirs ? "" : `${a} is ${mine}, ${b} ${theirs}. `;
  const conditions = conditionDifferences(one.conditions, other.conditions, conditionWords);
  return (
    <section>
      <h3>
        {a}, <Title of={one} />, against {b}, <Title of={other} />
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
        <dt>Power</dt>
        <dd>
          {pair.power_difference && (
            <>
              {a} less {b}: <Quantity of={pair.power_difference} />.{" "}
            </>
          )}
          {powerWords(pair, a, b)}
        </dd>
        <dt>Price</dt>
        <dd>{priceWords(one.cost, other.cost, a, b)}</dd>
        <dt>Parts</dt>
        <dd>
          <Differences of={pair.parts} lead={`${kinds}${a} has:`} none="The same, as far as they are described." />
        </dd>
        <dt>Tests</dt>
        <dd>
          <Differences of={conditions} lead={`${a} against ${b}:`} none="Made alike, as far as it is known." />
        </dd>
      </dl>
    </section>
  );
}

function Title({ of: { configuration, setting } }: { readonly of: Compared }) {
  return <CleanerTitle title={configuration.title} setting={setting} />;
}

/** A difference a line. */
function Differences({ of, none, lead }: { of: readonly string[]; none: string; lead: string }) {
  if (of.length === 0) return <>{none}</>;
  return (
    <>
      {lead}
      <ul>
        {of.map((words) => (
          <li>
            <bdi>{words}</bdi>
          </li>
        ))}
      </ul>
    </>
  );
}
