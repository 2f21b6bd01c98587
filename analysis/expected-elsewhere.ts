import { type Estimate, interval95 } from "./estimate.ts";
import { welchSatterthwaite } from "./welch-satterthwaite.ts";

/** How much results of one cleaner differ between laboratories: a relative standard deviation with its dof. */
export interface Spread {
  readonly relative: number;
  readonly dof: number;
  /** assumed: until enough entries with several rooms exist to learn it from. */
  readonly source: "assumed" | "learnt";
}

/** Two sensors on one run differ by 12 % in the median (open decay logs by robwiss, 2022): an SD near 13 %. 8 dof: a guess of that quality. */
export const ASSUMED_SPREAD: Spread = { relative: 0.13, dof: 8, source: "assumed" };

/**
 * Where another laboratory's CADR [m³/h] of the same thing is expected, from one room's: u² + 2τ² with τ = s·|CADR|, once for
 * this laboratory's place in the spread and once for the other's. Not clipped: a rate near 0 may be measured below it.
 */
export function expectedElsewhere(cadrM3PerH: Estimate, spread: Spread): { low: number; high: number } {
  const tau = spread.relative * Math.abs(cadrM3PerH.value);
  const { u, dof } = welchSatterthwaite([cadrM3PerH, { u: Math.SQRT2 * tau, dof: spread.dof }]);
  return interval95({ value: cadrM3PerH.value, u, dof });
}
