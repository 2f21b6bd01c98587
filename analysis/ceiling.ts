import type { Channel } from "./trial.ts";

/** Values at which common counters stop: a 16-bit register and a four-digit display. */
const KNOWN_CEILINGS = [65535, 999.9];
/** A flat top is this many equal values in a row, or this many times the channel's usual hold. */
const FLAT_TOP = 4;
/** Below this many steps a row of equal maxima is chance. */
const ABOVE_STEPS = 30;

/**
 * 1 where a channel stands at its ceiling: the stated one, a known one reached more than once, or a flat top (four or
 * more equal values in a row at the maximum, above 30 steps, and longer than the counter usually holds a value).
 */
export function ceilingMask(channel: Pick<Channel, "values" | "ceiling">, stepQ: number): Uint8Array {
  const { values } = channel;
  const mask = new Uint8Array(values.length);
  const finite = values.filter(Number.isFinite);
  if (finite.length === 0) return mask;
  const highest = finite.reduce((a, b) => Math.max(a, b));
  const atHighest = finite.filter((v) => v === highest).length;
  const known = KNOWN_CEILINGS.includes(highest) && atHighest > 1;
  const flat = longestRun(finite, (v) => v === highest) >= FLAT_TOP * usualHold(finite, highest);
  const ceiling = known || (flat && highest > ABOVE_STEPS * stepQ && highest > 0) ? highest : Infinity;
  const lowest = Math.min(ceiling, channel.ceiling ?? Infinity);
  for (let i = 0; i < values.length; i++) if (values[i]! >= lowest) mask[i] = 1;
  return mask;
}

/** Length of the longest run of consecutive values that satisfy the test. */
function longestRun(values: Float64Array, test: (v: number) => boolean): number {
  let longest = 0;
  let run = 0;
  for (const v of values) {
    run = test(v) ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return longest;
}

/** How many rows in a row a value in the upper half usually keeps: the third quartile of run lengths, the top left out. */
function usualHold(values: Float64Array, highest: number): number {
  const runs: number[] = [];
  for (let i = 0; i < values.length; ) {
    let j = i + 1;
    while (j < values.length && values[j] === values[i]) j++;
    if (values[i]! > highest / 2 && values[i]! < highest) runs.push(j - i);
    i = j;
  }
  runs.sort((a, b) => a - b);
  return runs[Math.floor(0.75 * runs.length)] ?? 1;
}
