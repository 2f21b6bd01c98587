import { type SizingOut, SizingQuery } from "../../wire/sizing.ts";
import { AS_TABLE } from "../as-table.ts";
import { UNPAIRED_WORDS } from "../basis-words.ts";
import { IntervalAxis, rowScale } from "../charts/interval-bar.tsx";
import { bandPhrase, unitWords } from "../figures.ts";
import { InventedNote } from "../page.tsx";
import { chance } from "../percent.ts";
import { SetRow } from "./set-row.tsx";

/** The page asks for no more than the API gives unasked. */
const MOST_SHOWN = SizingQuery.shape.limit.parse(undefined);

/** The sets that do, and why others do not. */
export function SetsFound({ sizing }: { readonly sizing: SizingOut }) {
  const { sets } = sizing;
  const invented = sets.filter(({ entry }) => entry.invented).length;
  return (
    <>
      <h2>What does it</h2>
      <LeftOut sizing={sizing} />
      {invented > 0 && <InventedNote some={invented < sets.length} />}
      {sets.length > 0 && <Sets sizing={sizing} />}
    </>
  );
}

function Sets({ sizing }: { readonly sizing: SizingOut }) {
  const { sets, target, unit, band } = sizing;
  const need = Math.max(0, target.needed.value);
  const scale = rowScale([...sets.map(({ clean_air }) => clean_air), { low: 0, high: need }]);
  return (
    <table {...AS_TABLE.table} class="sets">
      <caption>
        Sets of equal cleaners for {bandPhrase(band)}. As bars, and in brackets beside the clean air of the set and what
        it does in this room: where each is expected, 95 times in 100, in a room nobody tested it in, such as yours.
        “Over all tests” stands the pooled figure of one unit, whose narrower interval is about the mean of
        laboratories. Noise (A-weighted sound pressure level) and power: ± the 95&nbsp;% interval of what was measured.
        The upright line is what is needed. Prices and what a year costs are as stated and have no interval.
      </caption>
      <thead>
        <tr {...AS_TABLE.row}>
          <th {...AS_TABLE.head}>Set</th>
          <th {...AS_TABLE.head} class="delivers">
            Clean air of the set, {unitWords(unit)}
            <IntervalAxis scale={scale} />
          </th>
          <th {...AS_TABLE.head}>Does it, probability</th>
          <th {...AS_TABLE.head}>Noise at the seat</th>
          <th {...AS_TABLE.head}>In this room</th>
          <th {...AS_TABLE.head}>Money and power of the set</th>
        </tr>
      </thead>
      <tbody>
        {sets.map((set) => (
          <SetRow set={set} sizing={sizing} scale={scale} />
        ))}
      </tbody>
    </table>
  );
}

function LeftOut({ sizing: { sets, excluded, band, target } }: { readonly sizing: SizingOut }) {
  const surely = `with a probability of at least ${chance(target.probability)}`;
  const reasons = Object.entries(excluded);
  if (sets.length === 0 && reasons.length === 0) return <p>Nothing is listed for {bandPhrase(band)} yet.</p>;
  return (
    <>
      <p>
        {sets.length === 0
          ? `Nothing that was tested does it ${surely} within these limits.`
          : `${sets.length} ${sets.length === 1 ? "set does" : "sets do"} it ${surely}, each of the fewest units that are sure enough.${sets.length === MOST_SHOWN ? " There may be more: limit the choice to see others." : ""}`}
      </p>
      {reasons.length > 0 && (
        <ul>
          {reasons.map(([reason, count]) => (
            <li>{`${count} left out: ${WORDS[reason] ?? reason.replaceAll("_", " ")}.`}</li>
          ))}
        </ul>
      )}
    </>
  );
}

const WORDS: Record<string, string> = {
  single_unpaired: `resting on a single unpaired test (${UNPAIRED_WORDS})`,
  mixed_aerosol: "tested with other aerosols too, and the tests are pooled",
  too_weak: "too weak or too little known, with as many units as are allowed",
  too_loud: "louder at the seat than asked for",
  no_noise: "no noise measured, so none that can be held against the limit",
  noise_bound: "only a level that the noise stays under is known, and that is over the limit",
  too_dear: "dearer than asked for",
  no_cost: "no price stated",
  other_currency: "priced in another currency, and money is not converted",
  no_power: "no power measured",
  too_hungry: "taking more power than asked for",
};
