import { type SizingOut, SizingQuery } from "../../wire/sizing.ts";
import { AS_TABLE } from "../as-table.ts";
import { IntervalAxis, rowScale, runsOffWords } from "../charts/interval-bar.tsx";
import { bandAtFirst, bandPhrase, unitWords } from "../figures.ts";
import { InventedNote } from "../page.tsx";
import { chance } from "../percent.ts";
import { LeftOut } from "./left-out.tsx";
import { NearMisses } from "./near-misses.tsx";
import { noiseOrderWords } from "./noise-order.ts";
import { SetRow } from "./set-row.tsx";

/** The page asks for no more than the API gives unasked. */
const MOST_SETS = SizingQuery.shape.limit.parse(undefined);
/** More than these are one tap further: on a phone each is half a screen. */
const FIRST_SHOWN = 10;
const FEW_MORE = 2;

interface Props {
  readonly sizing: SizingOut;
  readonly isQuietestFirst: boolean;
  /** The same page with all its sets; null where they stand already. */
  readonly allHref: string | null;
}

/** The sets that do, those that nearly do, and why others do not. */
export function SetsFound({ sizing, isQuietestFirst, allHref }: Props) {
  const { sets, near_misses, excluded, band } = sizing;
  const invented = [...sets, ...near_misses].filter(({ entry }) => entry.invented).length;
  const isFolded = allHref !== null && sets.length > FIRST_SHOWN + FEW_MORE;
  const order = isQuietestFirst ? noiseOrderWords(sets) : null;
  return (
    <>
      <h2 id="sets">What does it</h2>
      {sets.length === 0 && Object.keys(excluded).length === 0 ? (
        <p>Nothing is listed for {bandPhrase(band)} yet.</p>
      ) : (
        <p>{countWords(sizing)}</p>
      )}
      {order && <p>{order}</p>}
      {invented > 0 && <InventedNote some={invented < sets.length + near_misses.length} />}
      {sets.length > 0 && <Sets sizing={sizing} most={isFolded ? FIRST_SHOWN : sets.length} />}
      {isFolded && (
        <p>
          The first {FIRST_SHOWN} of {sets.length} are shown: <a href={allHref}>show all {sets.length}</a>
        </p>
      )}
      <NearMisses sizing={sizing} />
      <LeftOut excluded={excluded} />
    </>
  );
}

const TARGETS = {
  air_changes: "the air changes asked for",
  clearance: "the clearing asked for",
  ratio: "the level asked for",
} as const;

function countWords({ sets, target }: SizingOut): string {
  const surely = `with a probability of at least ${chance(target.probability)}`;
  const what = TARGETS[target.kind];
  if (sets.length === 0) return `Nothing that was tested reaches ${what} ${surely} within these limits.`;
  const reach =
    sets.length === 1
      ? `One set reaches ${what} ${surely}: the fewest units that do.`
      : `${sets.length} sets, each of which reaches ${what} ${surely}, made of the fewest units that do.`;
  return sets.length === MOST_SETS ? `${reach} There may be more: limit the choice to see others.` : reach;
}

function Sets({ sizing, most }: { readonly sizing: SizingOut; readonly most: number }) {
  const { sets, target, unit, band } = sizing;
  const need = Math.max(0, target.needed.value);
  const scale = rowScale([...sets.map(({ clean_air }) => clean_air), { low: 0, high: need }]);
  return (
    <>
      <table {...AS_TABLE.table} class="sets">
        <caption>
          Sets of equal cleaners for {bandAtFirst(band)}. Bars and brackets: what is expected, 95 times in 100, in a
          room nobody tested it in, such as yours. The upright line is what is needed.{runsOffWords(scale)}
        </caption>
        <thead>
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.head}>Set</th>
            <th {...AS_TABLE.head} class="delivers">
              Clean air of the set, {unitWords(unit)}
              <IntervalAxis scale={scale} />
            </th>
            <th {...AS_TABLE.head}>Reaches it, probability</th>
            <th {...AS_TABLE.head}>Noise at the seat</th>
            <th {...AS_TABLE.head}>In this room</th>
            <th {...AS_TABLE.head}>Price and power of the set</th>
          </tr>
        </thead>
        <tbody>
          {sets.slice(0, most).map((set) => (
            <SetRow set={set} sizing={sizing} scale={scale} />
          ))}
        </tbody>
      </table>
      <p class="quiet">
        “Over all tests” is the pooled figure of one unit, whose narrower interval is about the mean of laboratories.
        Noise (A-weighted sound pressure level) and power: ± the 95{"\u00a0%"} interval of what was measured. Prices and
        what a year costs are as stated and have no interval.
      </p>
    </>
  );
}
