import { addColumn, type FittedShape } from "./added-column.ts";
import { exp } from "./exp.ts";
import { scoreTestP } from "./score-test.ts";

export interface Lag {
  /** What it makes the fitted k differ from the true one by [1/h], as the readings show it: below 0 for a counter that lags. */
  readonly biasPerH: number;
  /** Probability of so slow a beginning by chance, and of so quick a one if the counter did lag by a minute. */
  readonly p: number;
  readonly pOfPlausible: number;
}

/** A lag long enough to matter and common in counters that average (common practice, no source). */
const PLAUSIBLE_LAG_S = 60;
/** Beyond kτ = 0.9 the counter's own e^(−t/τ) is what is seen of the decay. */
const MOST_LAG = 0.9;
/** A counter that lags by more of 1/k than this is no counter for that decay: nobody's unstated lag is taken for so long. */
const MOST_UNSTATED = 0.25;

/** The lag to reckon with where none is stated [s]. */
export function plausibleLagS(kPerH: number): number {
  return kPerH > 0 ? Math.min(PLAUSIBLE_LAG_S, (3600 * MOST_UNSTATED) / kPerH) : PLAUSIBLE_LAG_S;
}

/**
 * Whether the readings begin as those of a counter that lags by about a minute do. After a settled start its decay reads
 * [e^(−kt) − kτ·e^(−t/τ)]/(1 − kτ): C − B is multiplied by 1 − kτ·e^(−(1/τ−k)t), a deficit that fades. One-sided, for no
 * counter leads. Times before 0 are of readings that were waited out.
 */
export function decayLag(shape: FittedShape, dof: number, waitedS: number): Lag | null {
  const { kPerH } = shape.at;
  const lagS = plausibleLagS(kPerH);
  const start = addColumn(shape, fading(kPerH, lagS));
  if (start === null) return null;
  const quicker = start.value - startOf(kPerH, lagS, waitedS);
  return {
    biasPerH: start.kPerUnit * start.value,
    p: start.value < 0 ? scoreTestP(start, dof) : 1,
    pOfPlausible: quicker > 0 ? scoreTestP({ value: quicker, u: start.u }, dof) : 1,
  };
}

/** What a lag of τ would make the fitted k differ from the true one by [1/h], the window beginning `waitedS` after the decay. */
export function lagBias(shape: FittedShape, lagS: number, waitedS: number): number {
  const { kPerH } = shape.at;
  const start = kPerH > 0 ? addColumn(shape, fading(kPerH, lagS)) : null;
  return start ? startOf(kPerH, lagS, waitedS) * start.kPerUnit : 0;
}

/** −kτ/(1 − kτ)·e^(−(1/τ−k)t): the deficit left after a wait. */
function startOf(kPerH: number, lagS: number, waitedS: number): number {
  const kTau = Math.min(MOST_LAG, (kPerH * lagS) / 3600);
  return -(kTau / (1 - kTau)) * fading(kPerH, lagS)(waitedS / 3600);
}

/** e^(−(1/τ−k)t), t in hours. */
function fading(kPerH: number, lagS: number): (tHours: number) => number {
  const perH = Math.max(3600 / lagS - kPerH, (1 / MOST_LAG - 1) * kPerH);
  return (tHours) => exp(-perH * tHours);
}
