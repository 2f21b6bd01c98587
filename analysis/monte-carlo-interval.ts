import type { RateDifference } from "./clean-air-delivery-rate.ts";
import { cosOfTurns } from "./cos-of-turns.ts";
import type { Estimate } from "./estimate.ts";
import { expm1 } from "./exp.ts";
import { log } from "./log.ts";
import { createRandom, type Random } from "./simulate/random.ts";

/** A 95 % interval of CADR in m³/h as draws of its inputs give it. */
export interface MonteCarloInterval {
  readonly lowM3PerH: number;
  readonly highM3PerH: number;
  readonly draws: number;
}

/** By 10 000 draws an end of the interval is known to 1.4 % of its half-width, in 5 ms a band; some logs have 64 bands. */
export const DRAWS = 10_000;
export const MOST_DRAWS = 100_000;

/**
 * Probabilistically symmetric 95 % interval of CADR = V·(k_total − k_natural + Σδ) [m³/h] by propagation of distributions:
 * each input is drawn as value + u·t_ν, a scaled and shifted t (normal where ν = ∞), and the ends are the 2.5 % and 97.5 %
 * order statistics. Unlike first-order propagation it keeps the product's second-order terms and the shape of each t.
 * V in m³, k and δ in 1/h. JCGM 101:2008, 6.4.9, 7.2 to 7.7. @throws RangeError for a number of draws out of range
 */
export function monteCarloInterval(
  volumeM3: Estimate,
  rates: RateDifference,
  seed: number,
  draws = DRAWS,
): MonteCarloInterval {
  if (!(draws >= 100 && draws <= MOST_DRAWS)) throw new RangeError(`draws are 100 to ${MOST_DRAWS}, not ${draws}`);
  const random = createRandom(seed);
  const difference = rates.totalPerH.value - rates.naturalPerH.value;
  const parts = [...decaysApart(rates), ...rates.others].filter(({ u }) => u > 0);
  const cadr = new Float64Array(draws);
  for (let i = 0; i < draws; i++) {
    let rate = difference;
    for (const { u, dof } of parts) rate += u * drawT(dof, random);
    cadr[i] = (volumeM3.value + volumeM3.u * drawT(volumeM3.dof, random)) * rate;
  }
  cadr.sort();
  const covered = Math.floor(0.95 * draws + 0.5);
  const low = Math.floor((draws - covered + 1) / 2) - 1;
  return { lowM3PerH: cadr[low]!, highM3PerH: cadr[low + covered]!, draws };
}

/**
 * The two decays as independent parts of their difference. With a covariance c the one of the larger u, a, carries what they
 * share: b = (c/u_a²)·a + rest, so that a − b leaves u_a − c/u_a of a and √(u_b² − c²/u_a²) of b (JCGM 101 6.4.8, Cholesky).
 */
function decaysApart({ totalPerH, naturalPerH, covariance }: RateDifference): { u: number; dof: number }[] {
  const [a, b] = totalPerH.u >= naturalPerH.u ? [totalPerH, naturalPerH] : [naturalPerH, totalPerH];
  const shared = a.u > 0 ? covariance / a.u : 0;
  return [
    { u: a.u - shared, dof: a.dof },
    { u: Math.sqrt(Math.max(0, b.u ** 2 - shared ** 2)), dof: b.dof },
  ];
}

/** Student's t at ν dof, √(ν(U^(−2/ν) − 1))·cos 2πU′ (Bailey 1994, Math. Comp. 62:779); at ν = ∞ Box and Muller's normal. */
function drawT(dof: number, { uniform }: Random): number {
  const minusTwoLog = -2 * log(uniform());
  const square = dof === Infinity ? minusTwoLog : dof * expm1(minusTwoLog / dof);
  return Math.sqrt(square) * cosOfTurns(uniform());
}
