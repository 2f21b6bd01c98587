import type { FittedShape } from "../added-column.ts";
import type { Band } from "../analysis.ts";
import type { BandDecay } from "../counter-decays.ts";
import type { Estimate } from "../estimate.ts";
import { log } from "../log.ts";
import type { NaturalMatch } from "../natural-match.ts";
import type { Counter, Trial } from "../trial.ts";

/** What findings are looked for in: a band's decays, and what was made of them. */
export interface Evidence {
  readonly trial: Trial;
  readonly band: Band;
  readonly counters: readonly CounterEvidence[];
  /** What each counter weighs in the result. */
  readonly weights: readonly number[];
  readonly totalPerH: Estimate;
  readonly naturalPerH: Estimate;
  readonly between: { readonly u: number; readonly significant: boolean };
}

/** What one counter says about a band. */
export interface CounterEvidence {
  readonly counter: Counter;
  readonly totals: readonly BandDecay[];
  readonly total: Estimate;
  /** Null where natural loss is assumed. */
  readonly match: NaturalMatch | null;
  readonly natural: Estimate;
  /** Of total and natural, 1/h²: the background both decays share. */
  readonly covariance: number;
}

export function totalsOf({ counters }: Evidence): BandDecay[] {
  return counters.flatMap(({ totals }) => totals);
}

export function naturalsOf({ counters }: Evidence): BandDecay[] {
  return counters.flatMap(({ match }) => match?.naturals ?? []);
}

export function decaysOf(evidence: Evidence): BandDecay[] {
  return [...totalsOf(evidence), ...naturalsOf(evidence)];
}

/** Those whose errors count: what is wrong with the one fit is no news where the other decides the interval. */
export function decidingOf(evidence: Evidence): BandDecay[] {
  const { totalPerH, naturalPerH } = evidence;
  return [
    ...(totalPerH.u > naturalPerH.u / 3 ? totalsOf(evidence) : []),
    ...(naturalPerH.u > totalPerH.u / 3 ? naturalsOf(evidence) : []),
  ];
}

export function shapeOf({ fit, prior }: BandDecay): FittedShape {
  const at = { lnA: log(fit.amplitude), kPerH: fit.kPerH.value, background: fit.background.value };
  return { data: fit.blocks, at, noise: fit.noise, prior };
}

/**
 * Error of k_total − k_natural [1/h] that errors of known sign of the decays make: each counter's mean over its totals less
 * that over its naturals, counters by their weights. What pushes both rates alike cancels.
 */
export function biasOfDifference(
  { counters, weights }: Evidence,
  biasPerH: (decay: BandDecay, counter: Counter) => number,
) {
  return counters.reduce((sum, { counter, totals, match }, i) => {
    const mean = (decays: readonly BandDecay[]) =>
      decays.reduce((total, decay) => total + biasPerH(decay, counter) / decays.length, 0);
    return sum + weights[i]! * (mean(totals) - mean(match?.naturals ?? []));
  }, 0);
}

/**
 * u of k_total − k_natural [1/h] that independent errors of the decays make: of several decays the mean square counts (one
 * cause may bend them all), totals and naturals both, counters by their weights.
 */
export function spreadOfDifference({ counters, weights }: Evidence, uPerH: (decay: BandDecay) => number): number {
  let variance = 0;
  counters.forEach(({ totals, match }, i) => {
    for (const decays of [totals, match?.naturals ?? []]) {
      const squares = decays.reduce((sum, decay) => sum + uPerH(decay) ** 2, 0);
      variance += weights[i]! ** 2 * (squares / Math.max(1, decays.length));
    }
  });
  return Math.sqrt(variance);
}
