import { type CoverageRow, seedsOf } from "./coverage-table.ts";
import type { Verdict } from "./judge-trial.ts";
import type { Kind } from "./occasion.ts";

/** Coverage of the 95 % interval: of each kind the estimator models, of these together, of each it does not model. */
const MODELLED = [0.93, 0.98] as const;
const TOGETHER = [0.935, 0.975] as const;
const UNMODELLED_LEAST = 0.88;
const MOST_REFUSED = 0.01;
/** Median U over that of a fit that knows the noise. */
const MOST_U_OVER_ORACLE = 1.3;
/** Error over that of the log-linear fit, volume left out: what the estimator is for. */
const MOST_ERROR_OVER_LOG_LINEAR: Readonly<Record<string, number>> = {
  paired: 0.95,
  slow: 0.95,
  "two-counters": 0.7,
  "high-floor": 0.3,
};
const MOST_SEED_DEVIATION_SE = 3;

/** Each limit that a campaign breaks, in words; a few hundred trials a kind break some by chance. */
export function brokenLimits(
  rows: readonly CoverageRow[],
  together: CoverageRow | null,
  kinds: readonly Kind[],
  verdicts: readonly Verdict[],
): string[] {
  const broken: string[] = [];
  const within = (what: string, value: number, low: number, high: number) => {
    if (!(value >= low && value <= high)) broken.push(`${what} is ${value.toFixed(4)}, not within ${low} to ${high}`);
  };
  for (const row of rows) {
    const kind = kinds.find(({ name }) => name === row.kind)!;
    if (kind.modelled) within(`coverage of ${row.kind}`, row.coverage, ...MODELLED);
    else if (kind.limited) within(`coverage of ${row.kind}`, row.coverage, UNMODELLED_LEAST, 1);
    within(`refusals of ${row.kind}`, row.refused, 0, MOST_REFUSED);
    if (kind.modelled) within(`U over the oracle's of ${row.kind}`, row.uOverOracle, 0, MOST_U_OVER_ORACLE);
    const mostError = MOST_ERROR_OVER_LOG_LINEAR[row.kind];
    if (mostError) within(`error over log-linear of ${row.kind}`, row.errorOverLogLinear, 0, mostError);
    within(`share of ${row.kind} whose fits the campaign retraces`, row.retraced, 1, 1);
    for (const { seed, deviationSe } of seedsOf(row.kind, verdicts)) {
      within(
        `coverage of ${row.kind} at seed ${seed}, in SE off the joint figure,`,
        Math.abs(deviationSe),
        0,
        MOST_SEED_DEVIATION_SE,
      );
    }
  }
  if (together) within("coverage of the modelled kinds together", together.coverage, ...TOGETHER);
  return broken;
}
