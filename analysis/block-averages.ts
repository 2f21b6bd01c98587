import type { DecayData } from "./decay-model.ts";
import type { Readings } from "./readings.ts";

/** Long logs are averaged to about this many blocks: one pass of 400 takes about 10 µs. */
export const MOST_BLOCKS = 400;

/**
 * Readings averaged to blocks of equally many, time and value. A block ends where the counter fell silent for longer than
 * a block lasts, for the mean of a curve over a gap is not the curve at its mean time, and the last block takes what is left:
 * each keeps the number of its readings, by which its variance is divided.
 */
export function blockAverages({ tS, values, stepQ, intervalS }: Readings, mostBlocks = MOST_BLOCKS): DecayData {
  const n = tS.length;
  const perBlock = Math.max(1, Math.ceil(n / mostBlocks));
  const gapS = perBlock * intervalS;
  const tHours: number[] = [];
  const means: number[] = [];
  const sizes: number[] = [];
  for (let from = 0; from < n; ) {
    let to = from + 1;
    while (to < n && to - from < perBlock && tS[to]! - tS[to - 1]! <= gapS) to++;
    let t = 0;
    let value = 0;
    for (let i = from; i < to; i++) {
      t += tS[i]! - tS[0]!;
      value += values[i]!;
    }
    tHours.push(t / (to - from) / 3600);
    means.push(value / (to - from));
    sizes.push(to - from);
    from = to;
  }
  const blockSizes = sizes.every((size) => size === perBlock) ? null : Float64Array.from(sizes);
  return { tHours: Float64Array.from(tHours), values: Float64Array.from(means), perBlock, blockSizes, stepQ };
}

/** The blocks without those named. */
export function withoutBlocks(data: DecayData, out: ReadonlySet<number>): DecayData {
  const keep = (_: number, i: number) => !out.has(i);
  const blockSizes = data.blockSizes?.filter(keep) ?? null;
  return { ...data, tHours: data.tHours.filter(keep), values: data.values.filter(keep), blockSizes };
}

/** How many readings the blocks average in all. */
export function readingsIn({ tHours, perBlock, blockSizes }: DecayData): number {
  return blockSizes ? blockSizes.reduce((a, b) => a + b, 0) : tHours.length * perBlock;
}
