import { median, runningMedian5 } from "./median.ts";
import { firstAtOrAfter, type Readings, readingsBetween } from "./readings.ts";

/** A reading of the background: level and standard uncertainty in the channel's unit. */
export interface BackgroundReading {
  readonly value: number;
  readonly u: number;
}

/** Counters wake up during the first seconds. */
const AWAKE_AFTER_S = 5;

/**
 * Span of the clean-air lead: the first readings whose running median stays within 2 % of the rise of its lowest. Null
 * where fewer than three are left after 5 s, or their level is not under 5 % of the peak.
 */
export function findCleanAirLead(
  readings: Readings,
  peak: number,
  peakS: number,
): { fromS: number; toS: number } | null {
  const { tS, values } = readings;
  const end = firstAtOrAfter(tS, peakS);
  const smooth = runningMedian5(values.subarray(0, end));
  if (smooth.length < 3) return null;
  const lowest = smooth.reduce((a, b) => Math.min(a, b));
  const limit = lowest + 0.02 * (peak - lowest);
  let last = 0;
  while (last < smooth.length && smooth[last]! <= limit) last++;
  const from = firstAtOrAfter(tS, tS[0]! + AWAKE_AFTER_S);
  if (last - from < 3) return null;
  const span = { fromS: tS[from]!, toS: tS[last - 1]! };
  return readBackground(readings, span.fromS, span.toS)!.value < 0.05 * peak ? span : null;
}

/** Below this many counts a median is coarse: of 0.2 counts a reading it is 0. */
export const FEW_COUNTS = 10;

/**
 * Level of the readings in a span with its u; neighbours depend on each other, so n counts one reading in ten seconds at
 * most. Their median, with u = 1.2533·s/√n, s the scaled MAD or a step's q/√12, whichever is more. Of few counts (under
 * 10 q) the mean, with the u of the counts that were seen, √(mean·q/n); where none were, that of one (Poisson).
 * Null for an empty span.
 */
export function readBackground(readings: Readings, fromS: number, toS: number): BackgroundReading | null {
  const { values, tS, stepQ, quantity } = readingsBetween(readings, fromS, toS);
  const n = values.length;
  if (n === 0) return null;
  const value = Math.max(0, median(values));
  const independent = Math.max(1, Math.min(n, (tS.at(-1)! - tS[0]!) / 10));
  if (quantity !== "mass" && value < FEW_COUNTS * stepQ) {
    const mean = Math.max(0, values.reduce((a, b) => a + b, 0) / n);
    const scatter = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / Math.max(1, n - 1));
    return {
      value: mean,
      u: Math.max(Math.sqrt((Math.max(mean, stepQ / n) * stepQ) / n), scatter / Math.sqrt(independent)),
    };
  }
  const scatter = 1.4826 * median(values.map((v) => Math.abs(v - value)));
  return { value, u: (1.2533 * Math.max(scatter, stepQ / Math.sqrt(12))) / Math.sqrt(independent) };
}
