import { runningMedian5 } from "./median.ts";
import { firstAtOrAfter, type Readings } from "./readings.ts";

export interface DecayStart {
  readonly startS: number;
  /** Highest running median in the unit of the channel, and when 95 % of it was first reached. */
  readonly peak: number;
  readonly peakS: number;
  /** Whether the log holds the feed, at least the last part of it. */
  readonly rises: boolean;
  readonly why: string;
  readonly afterCeiling: boolean;
}

/**
 * Where the decay after the peak begins, within [fromS, toS]: at the first 95 % of the peak (running median) plus
 * max(2Δt, 15 % of the feed time), after any flat top at the ceiling. A log that begins at its peak holds no feed and
 * waits for nothing. Null where the segment holds fewer than five readings or nothing above zero.
 */
export function findDecayStart(
  readings: Readings,
  fromS: number,
  toS: number,
  feedEndS: number | null,
): DecayStart | null {
  const { tS, values, intervalS } = readings;
  const from = firstAtOrAfter(tS, fromS);
  const to = firstAtOrAfter(tS, toS + 1e-9);
  if (to - from < 5) return null;
  const smooth = runningMedian5(values.subarray(from, to));
  const peak = smooth.reduce((a, b) => Math.max(a, b));
  if (!(peak > 0)) return null;
  const at95 = smooth.findIndex((v) => v >= 0.95 * peak);
  const peakS = tS[from + at95]!;
  const lowestBefore = smooth.subarray(0, at95 + 1).reduce((a, b) => Math.min(a, b));
  const rises = at95 > 2 && lowestBefore < 0.8 * peak;
  const rise = rises ? lastBelow(smooth, at95, lowestBefore + 0.05 * (peak - lowestBefore)) : at95;
  // A mark from before the peak is contradicted by the readings, which still rose.
  const endOfFeedS = Math.max(feedEndS ?? peakS, peakS);
  const feedS = rises ? endOfFeedS - tS[from + rise]! : 0;
  const wait = rises || feedEndS !== null ? Math.max(2 * intervalS, 0.15 * feedS) : 0;
  const startS = endOfFeedS + wait;
  const freeS = leavesCeiling(readings, startS, toS);
  const why =
    feedEndS !== null ? "after the mark “aerosol end”" : rises ? "after the peak" : "the log begins at its peak";
  return freeS === null
    ? { startS, peak, peakS, rises, why, afterCeiling: false }
    : { startS: freeS, peak, peakS, rises, why: "after the counter left its ceiling", afterCeiling: true };
}

/**
 * Time of the last reading within [fromS, toS] still at 95 % of the peak (running median): until then a cleaner that is
 * to be seen at work has not begun, or the counter has not noticed.
 */
export function leavesTop({ tS, values }: Readings, peak: number, fromS: number, toS: number): number {
  const from = firstAtOrAfter(tS, fromS);
  const smooth = runningMedian5(values.subarray(from, firstAtOrAfter(tS, toS)));
  const last = smooth.findLastIndex((v) => v >= 0.95 * peak);
  return last < 0 ? fromS : tS[from + last]!;
}

/** Time of the first reading after the last one at the ceiling within [fromS, toS], null where there is none. */
export function leavesCeiling({ tS, clipped }: Readings, fromS: number, toS: number): number | null {
  for (let i = firstAtOrAfter(tS, toS + 1e-9) - 1; i >= 0 && tS[i]! >= fromS; i--) {
    if (clipped[i] === 1) return tS[i + 1] ?? tS[i]!;
  }
  return null;
}

/** Index of the last value before `end` at or below the level, 0 where there is none. */
function lastBelow(smooth: Float64Array, end: number, level: number): number {
  for (let i = end; i >= 0; i--) if (smooth[i]! <= level) return i;
  return 0;
}
