import type { Interval } from "./pooling/part-relative.ts";

/** An entry's 95 % intervals of clean air and of noise; an upper bound on noise has a low end of −∞. */
export interface NoiseAgainstCadr {
  readonly cadrM3PerH: Interval;
  readonly noiseDb: Interval;
}

/**
 * Which entries are on the frontier of noise against clean air delivery rate: nobody else is both quieter and stronger beyond
 * the intervals, noise high end under mine's low end and CADR low end over mine's high end. Sorted by noise, with the
 * greatest low end of CADR among all that are surely quieter: O(n log n).
 */
export function frontier(entries: readonly NoiseAgainstCadr[]): boolean[] {
  const quietest = entries.toSorted((a, b) => order(a.noiseDb.high, b.noiseDb.high));
  const asked = entries.map((_, i) => i).sort((a, b) => order(entries[a]!.noiseDb.low, entries[b]!.noiseDb.low));
  const on = new Array<boolean>(entries.length);
  let passed = 0;
  let strongest = -Infinity;
  for (const i of asked) {
    const { cadrM3PerH, noiseDb } = entries[i]!;
    while (passed < quietest.length && quietest[passed]!.noiseDb.high < noiseDb.low) {
      strongest = Math.max(strongest, quietest[passed]!.cadrM3PerH.low);
      passed++;
    }
    on[i] = !(strongest > cadrM3PerH.high);
  }
  return on;
}

/** Infinite ends have an order too, where a difference of two would be NaN. */
function order(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
