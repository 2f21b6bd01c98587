import { parseUnit } from "../../../analysis/units.ts";
import type { BasisOut, EntryOut } from "../../wire/entry.ts";
import { counted } from "../counts.ts";
import { figures, unitWords } from "../figures.ts";
import { inPercent } from "../percent.ts";
import { Missing, Money, Quantity, type Shown, Sound } from "../quantity.tsx";
import type { FlowUnit } from "../reader.ts";
import { NoiseAgainst, PowerAgainst, statedFlow } from "./stated-words.tsx";
import { YearCost } from "./year-cost.tsx";

interface Props {
  readonly entry: EntryOut;
  readonly basis: BasisOut;
  readonly flow: FlowUnit;
}

/** What an entry costs in noise, power and money, and how far it does what is stated of it. */
export function EntryFacts({ entry, basis, flow }: Props) {
  const { stated, against_stated: against, costs } = entry;
  const unit = unitWords(flow);
  return (
    <dl class="facts">
      <dt>Noise at 1 m</dt>
      <dd>
        <Sound of={basis.noise} />
        {basis.noise && <small> (sound pressure level)</small>}
        {measuredIn(basis.noise_trials, basis.trials)} <NoiseAgainst stated={stated.noise} against={against.noise} />
      </dd>
      <dt>Power</dt>
      <dd>
        <Quantity of={basis.power} missing="not measured" />
        {measuredIn(basis.power_trials, basis.trials)} <PowerAgainst stated={stated.power} against={against.power} />
      </dd>
      <dt>Clean air per watt</dt>
      <dd>
        <Per of={basis.cadr_per_watt} words={`${unit} per W`} missing="power was not measured" />
      </dd>
      <dt>Clean air per price</dt>
      <dd>
        <Per
          of={basis.cadr_per_cost}
          words={`${unit} per ${costs.whole?.currency ?? ""}`}
          missing="no price of the whole is stated"
        />
        {costs.whole && (
          <small>
            {" "}
            at <Money of={costs.whole} />, as stated on {costs.whole.date}; a price has no interval
          </small>
        )}
      </dd>
      <dt>{`Noise for ${figures(parseUnit(flow).fromBase(300), 0).value} ${unit}`}</dt>
      <dd>
        <Together of={basis.noise_for_300} />
      </dd>
      <dt>CADR over stated flow</dt>
      <dd>
        <SinglePass of={against.flow} flow={flow} />
      </dd>
      <dt>A year</dt>
      <dd>
        <YearCost of={entry.yearly_cost} electricity={costs.electricity_year} />
      </dd>
    </dl>
  );
}

function measuredIn(some: number, all: number) {
  if (some === 0) return <small>;</small>;
  return some < all ? <small>{` measured in ${some} of ${counted(all, "test")};`}</small> : null;
}

function Per({ of, words, missing }: { of: Shown | null; words: string; missing: string }) {
  if (of === null) return <Missing why={missing} />;
  return <Quantity of={{ ...of, unit: words }} />;
}

/** So many units for 300 m³/h, and how loud they are together. */
function Together({ of }: { of: BasisOut["noise_for_300"] }) {
  if (of === null) return <Missing why="noise was not measured" />;
  const { units, value, low, high } = of;
  const sound = { unit: "dB", weighting: "A", high } as const;
  return (
    <>
      <Sound
        of={
          value === null || low === null
            ? { ...sound, value: null, bound: "upper" }
            : { ...sound, value, low, u: (high - low) / 4, dof: null }
        }
      />{" "}
      <small>
        {units === 1 ? "one unit, by its estimate" : `${counted(units, "unit")} by their estimate, at 1 m from each`}
      </small>
    </>
  );
}

/** CADR over the stated flow: the filters' single-pass efficiency where that flow is true and no air goes round twice. */
function SinglePass({ of, flow }: { of: EntryOut["against_stated"]["flow"]; flow: FlowUnit }) {
  if (of === null) return <Missing why="no air flow is stated" />;
  const { low, stated } = of;
  return (
    <>
      <Quantity of={inPercent(of)} />{" "}
      <small>
        of the {statedFlow(stated.value, flow)} that are stated, taken as exact: the filters’ single-pass efficiency
        only if as much goes through them and none goes round twice
        {low > 1 && ". Over 100\u00a0% is impossible: the stated flow is too low, or the tests read too high"}
      </small>
    </>
  );
}
