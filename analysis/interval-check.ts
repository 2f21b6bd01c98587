import type { Finding } from "./analysis.ts";
import { type CleanAirDeliveryRate, cleanAirDeliveryRate, type RateDifference } from "./clean-air-delivery-rate.ts";
import { coverageFactor95, type Estimate, interval95 } from "./estimate.ts";
import { type MonteCarloInterval, monteCarloInterval } from "./monte-carlo-interval.ts";

export interface CheckedRate {
  readonly rate: CleanAirDeliveryRate;
  /** Null where no check was needed, or no seed was given to draw from. */
  readonly monteCarlo: MonteCarloInterval | null;
  readonly finding: Finding | null;
}

/** Up to here first-order propagation is taken at its word (the method's figure). */
const LARGE_RELATIVE_U = 0.2;
/** An end that falls short by less, as a share of the half-width, is not told from the draws' own 1.4 %. */
const LEAST_SHORTFALL = 0.05;

/**
 * CADR [m³/h] by first-order propagation, and, where V or k_total − k_natural is known to 20 % or worse, beside it the
 * interval that draws of all inputs give (JCGM 101:2008 8: validation of GUM results). Where the first is the narrower at an
 * end, a part is added that makes it reach: u_add² = (H/k_p)² − u², H the wanted half-width [m³/h], with ν_add = ν·u_add²/
 * (2u² + u_add²), which leaves ν, and so k_p, as they were. The seed is text: equal inputs give equal draws.
 */
export function checkedRate(volumeM3: Estimate, rates: RateDifference, seed: string | undefined): CheckedRate {
  const rate = cleanAirDeliveryRate(volumeM3, rates);
  const large = [volumeM3, rate.kDifferencePerH].some(({ value, u }) => u > LARGE_RELATIVE_U * Math.abs(value));
  if (seed === undefined || !large) return { rate, monteCarlo: null, finding: null };
  const monteCarlo = monteCarloInterval(volumeM3, rates, seedNumber(`${seed} ${volumeM3.value} ${volumeM3.u}`));
  const { low, high } = interval95(rate.cadrM3PerH);
  const { value, u, dof } = rate.cadrM3PerH;
  const half = high - value;
  const shortfall = Math.max(low - monteCarlo.lowM3PerH, monteCarlo.highM3PerH - high) / half;
  if (!(shortfall > LEAST_SHORTFALL)) return { rate, monteCarlo, finding: null };
  const uAdded = Math.sqrt((((1 + shortfall) * half) / coverageFactor95(dof)) ** 2 - u ** 2);
  const part = {
    source: "interval-checked",
    u: uAdded / volumeM3.value,
    dof: dof === Infinity ? Infinity : (dof * uAdded ** 2) / (2 * u ** 2 + uAdded ** 2),
  };
  return {
    rate: cleanAirDeliveryRate(volumeM3, { ...rates, others: [...rates.others, part] }),
    monteCarlo,
    finding: {
      code: "interval-checked",
      severity: "note",
      message:
        "So little is known here that the usual formula gives too narrow an interval: draws of every input reach further, and it is widened to them. Measure what dominates the budget better.",
      value: shortfall,
      effectM3PerH: uAdded,
    },
  };
}

/** 32-bit FNV-1a of a text (Fowler, Noll and Vo; constants from memory): any of its characters changes the draws. */
function seedNumber(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash | 0;
}
