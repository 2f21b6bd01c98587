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
export function ceilingMask({ values, ceiling }: Pick<Channel, "values" | "ceiling">, stepQ: number): Uint8Array {
  const mask = new Uint8Array(values.length);
  const top = flatTop(values, stepQ);
  const lowest = Math.min(top ?? Infinity, ceiling ?? Infinity);
  for (let i = 0; i < values.length; i++) if (values[i]! >= lowest) mask[i] = 1;
  return mask;
}

/** The highest value where it is a ceiling, else null. Rows without a number do not end a run of equal values. */
function flatTop(values: Float64Array, stepQ: number): number | null {
  let highest = -Infinity;
  for (const v of values) if (Number.isFinite(v) && v > highest) highest = v;
  let atHighest = 0;
  let longest = 0;
  let last = Number.NaN;
  let run = 0;
  const holds = new Float64Array(values.length);
  let held = 0;
  for (let i = 0; i <= values.length; i++) {
    const v = values[i];
    if (v !== undefined && !Number.isFinite(v)) continue;
    if (v === last) {
      run++;
      continue;
    }
    if (last === highest) {
      atHighest += run;
      longest = Math.max(longest, run);
    } else if (last > highest / 2) holds[held++] = run;
    last = v ?? Number.NaN;
    run = 1;
  }
  if (atHighest === 0) return null;
  if (KNOWN_CEILINGS.includes(highest) && atHighest > 1) return highest;
  // How many rows a value in the upper half usually keeps: the third quartile of the runs below the top.
  const usualHold = holds.subarray(0, held).sort()[Math.floor(0.75 * held)] ?? 1;
  const flat = longest >= FLAT_TOP * usualHold && highest > ABOVE_STEPS * stepQ && highest > 0;
  return flat ? highest : null;
}
