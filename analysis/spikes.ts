import { median } from "./median.ts";

/** Fewer readings than this give no scale to judge a spike by. */
const FEWEST = 12;
const MADS = 6;
const NEAR = 12;

/**
 * True where a reading stands more than six MAD (scaled to an SD) from the median of its four neighbours, the MAD being
 * that of its surroundings: whatever shape a decay has, four neighbours follow it, a spike stands alone.
 */
export function findSpikes(values: readonly number[], stepQ: number): boolean[] {
  const n = values.length;
  const spikes = new Array<boolean>(n).fill(false);
  if (n < FEWEST) return spikes;
  const off = new Float64Array(n);
  const level = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const from = Math.min(Math.max(0, i - 2), n - 5);
    const around: number[] = [];
    for (let j = from; j < from + 5; j++) if (j !== i) around.push(values[j]!);
    // At the ends the four neighbours lie on one side and do not follow a slope, so the end rows are left alone.
    level[i] = median4(around);
    off[i] = i < 2 || i > n - 3 ? 0 : Math.abs(values[i]! - level[i]!);
  }
  const relative = 1.4826 * median(off.map((d, i) => d / Math.max(Math.abs(level[i]!), stepQ, 1e-300)));
  for (let i = 0; i < n; i++) {
    const least = MADS * Math.max(relative * Math.abs(level[i]!), stepQ);
    if (!(off[i]! > least)) continue;
    const local = off.slice(Math.max(0, i - NEAR), i + NEAR + 1);
    const steepest = off[i]! >= (off[i - 1] ?? 0) && off[i]! >= (off[i + 1] ?? 0);
    spikes[i] = steepest && off[i]! > Math.max(least, MADS * 1.4826 * median(local));
  }
  return spikes;
}

function median4(v: readonly number[]): number {
  const [a, b, c, d] = v as [number, number, number, number];
  return 0.5 * (a + b + c + d - Math.max(a, b, c, d) - Math.min(a, b, c, d));
}
