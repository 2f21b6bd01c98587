import { parseUnit } from "../../../analysis/units.ts";
import { digitsApart } from "../../digits-apart.ts";
import type { TestPlanOut } from "../../wire/test-plan.ts";
import { plusMinus, two, unitWords } from "../figures.ts";
import type { Reader } from "../reader.ts";
import { PART_WORDS } from "./part-words.ts";

interface Props {
  readonly plan: TestPlanOut;
  readonly reader: Reader;
  /** Where the ± of the volume comes from. */
  readonly volumeBasis: string;
}

/** The plan in figures, and what it advises. */
export function PlannedTest({ plan, reader, volumeBasis }: Props) {
  const { natural, volume, expanded_u, wanted_expanded_u } = plan;
  const digits = plan.reachable ? 2 : digitsApart(expanded_u, wanted_expanded_u);
  return (
    <>
      <h2>The plan</h2>
      <p class="figure">
        {`${plan.natural_minutes}\u00a0min with the cleaner off, ${plan.minutes}\u00a0min with it on`}
      </p>
      <p class="quiet">Planned, not measured: these figures have no interval of their own.</p>
      <dl>
        <dt>Expect the clean air delivery rate (CADR) to be right within</dt>
        <dd>
          {around(expanded_u, digits, reader)} at 95{"\u00a0%"}, which is {two(100 * plan.relative_expanded_u)}
          {"\u00a0%"} of it
        </dd>
        <dt>Asked for</dt>
        <dd>
          {around(wanted_expanded_u, digits, reader)} at 95{"\u00a0%"}, which is{" "}
          {two((100 * plan.wanted_expanded_u * plan.relative_expanded_u) / plan.expanded_u)}
          {"\u00a0%"} of it: {plan.reachable ? "one test reaches it" : trialsWords(plan)}
        </dd>
        <dt>Aerosol at the start of each decay</dt>
        <dd>about {plan.start_over_background} times the level of the clean air</dd>
        <dt>What limits it most</dt>
        <dd>{(PART_WORDS[plan.dominant] ?? plan.dominant).toLowerCase()}</dd>
        <dt>Natural loss</dt>
        <dd>
          {natural.assumed ? (
            <>
              {Number(natural.value.toPrecision(3))} per hour, assumed by particle size and ventilation (common
              practice, no source)
            </>
          ) : (
            `${Number(natural.value.toPrecision(3))} per hour, as given`
          )}
        </dd>
        <dt>Volume</dt>
        <dd>
          {plusMinus(volume)} m³
          {volumeBasis}
        </dd>
        {plan.volume_u_needed && !plan.reachable && (
          <>
            <dt>Volume, known well enough</dt>
            <dd>
              ± {two(plan.volume_u_needed.expanded_u)} m³ at 95{"\u00a0%"} would do with these lengths
            </dd>
          </>
        )}
      </dl>
      <ul>
        {plan.advice.map((words) => (
          <li>{words.replaceAll(" %", "\u00a0%")}</li>
        ))}
      </ul>
      <p class="quiet">
        Each ± is of this test in this room; what laboratories differ by comes on top, and only tests elsewhere show it.
      </p>
    </>
  );
}

function trialsWords({ trials, volume_u_needed: volume }: TestPlanOut): string {
  if (trials === null && volume) return "out of reach, however long you log, while the volume is no better known";
  if (trials === null) return "out of reach with this counter and room";
  return `${trials} such tests in this room would reach it`;
}

function around(m3PerH: number, digits: number, { flow }: Reader): string {
  const shown = parseUnit(flow, "flow").fromBase(m3PerH);
  return `± ${digits === 2 ? two(shown) : Number(shown.toPrecision(digits))} ${unitWords(flow)}`;
}
