import type { Channel } from "./trial.ts";

/** The distinct, usable readings of one band or channel of one run, in time order. */
export interface Readings {
  readonly tS: Float64Array;
  readonly values: Float64Array;
  /** 1 where the counter stood at its ceiling: such a reading dates the peak but enters no fit. */
  readonly clipped: Uint8Array;
  /** The counter's step q in the channel's unit, 0 where unknown. */
  readonly stepQ: number;
  /** Median time between readings. */
  readonly intervalS: number;
  readonly quantity: Channel["quantity"];
}

/** Readings within [fromS, toS], both ends kept. */
export function readingsBetween(readings: Readings, fromS: number, toS: number): Readings {
  const from = firstAtOrAfter(readings.tS, fromS);
  let to = firstAtOrAfter(readings.tS, toS);
  if (readings.tS[to] === toS) to++;
  return {
    ...readings,
    tS: readings.tS.slice(from, Math.max(from, to)),
    values: readings.values.slice(from, Math.max(from, to)),
    clipped: readings.clipped.slice(from, Math.max(from, to)),
  };
}

/** Readings below the ceiling. */
export function unclipped(readings: Readings): Readings {
  if (!readings.clipped.includes(1)) return readings;
  const keep = (_: number, i: number) => readings.clipped[i] === 0;
  return {
    ...readings,
    tS: readings.tS.filter(keep),
    values: readings.values.filter(keep),
    clipped: new Uint8Array(readings.clipped.filter((c) => c === 0).length),
  };
}

/** Index of the first time at or after t, the length where there is none. */
export function firstAtOrAfter(tS: Float64Array, t: number): number {
  let low = 0;
  let high = tS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (tS[middle]! < t) low = middle + 1;
    else high = middle;
  }
  return low;
}
