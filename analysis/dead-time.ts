import { exp } from "./exp.ts";

/** Share of the time a counter may be blind before the true rate cannot be told: x·e^(−x) has its maximum at x = 1. */
const MOST_LOAD = 1 / Math.E;

/**
 * Concentration corrected for a paralysable dead time: the measured load m = C·Q·τ obeys x·e^(−x) = m with x the true
 * one, so C_true = C·x/m = C·e^x. C in 1/cm³, Q in cm³/s, τ in s. NaN where m is at or over 1/e: no x on the rising
 * side gives it. (Dead-time model of optical particle counters.)
 */
export function correctDeadTime(perCm3: number, flowCm3PerS: number, deadTimeS: number): number {
  const load = perCm3 * flowCm3PerS * deadTimeS;
  if (!(load < MOST_LOAD)) return Number.NaN;
  if (load <= 0) return perCm3;
  let x = load;
  for (let i = 0; i < 60; i++) {
    const step = (x * exp(-x) - load) / ((1 - x) * exp(-x));
    x -= step;
    if (Math.abs(step) < 1e-14) break;
  }
  return perCm3 * exp(x);
}
