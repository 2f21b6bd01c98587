import { median } from "./median.ts";

/** Fewer readings than this give no scale to judge a spike by. */
const FEWEST = 12;
const MADS = 6;
const NEAR = 12;

/**
 * 1 where a reading stands more than six MAD (scaled to an SD) from the median of its four neighbours, the MAD being
 * that of its surroundings: whatever shape a decay has, four neighbours follow it, a spike stands alone.
 */
export function findSpikes(values: Float64Array, stepQ: number): Uint8Array {
  const n = values.length;
  const spikes = new Uint8Array(n);
  if (n < FEWEST) return spikes;
  const off = new Float64Array(n);
  const level = new Float64Array(n);
  const relativeOff = new Float64Array(n);
  // At the ends the four neighbours lie on one side and do not follow a slope, so the end rows are left alone.
  for (let i = 2; i < n - 2; i++) {
    level[i] = median4(values[i - 2]!, values[i - 1]!, values[i + 1]!, values[i + 2]!);
    off[i] = Math.abs(values[i]! - level[i]!);
    relativeOff[i] = off[i]! / Math.max(Math.abs(level[i]!), stepQ, 1e-300);
  }
  const relative = 1.4826 * median(relativeOff);
  for (let i = 2; i < n - 2; i++) {
    const least = MADS * Math.max(relative * Math.abs(level[i]!), stepQ);
    if (!(off[i]! > least && off[i]! >= off[i - 1]! && off[i]! >= off[i + 1]!)) continue;
    const local = off.subarray(Math.max(0, i - NEAR), i + NEAR + 1);
    if (off[i]! > MADS * 1.4826 * median(local)) spikes[i] = 1;
  }
  return spikes;
}

function median4(a: number, b: number, c: number, d: number): number {
  return 0.5 * (a + b + c + d - Math.max(a, b, c, d) - Math.min(a, b, c, d));
}
