import { counterStep } from "./counter-step.ts";
import { median } from "./median.ts";
import type { Readings } from "./readings.ts";
import { findSpikes } from "./spikes.ts";
import type { Channel } from "./trial.ts";

/** One column of values, one a row kept by cleanRows, with the ceiling mask of what it was computed from. */
export interface RawColumn {
  readonly tS: Float64Array;
  readonly values: Float64Array;
  readonly clipped: Uint8Array;
  readonly quantity: Channel["quantity"];
}

/** Below this many steps equal neighbours are chance: collapsing them at the floor would bias it. */
const HELD_ABOVE_STEPS = 20.25; // between steps, so that rounding decides nothing

/** Of a counter without a visible step: this share of its highest reading is no noise about 0. */
const FAR_SHARE = 0.05;

/**
 * Distinct readings of one column: blanks, zeros of a restart, start-up rows and spikes out, values that a counter merely holds collapsed
 * to one point a reading. What was left out is counted by reason.
 */
export function cleanChannel(column: RawColumn): { readings: Readings; dropped: ReadonlyMap<string, number> } {
  const dropped = new Map<string, number>();
  const stepQ = counterStep(column.values);
  let { tS, values, clipped } = column;
  const leaveOut = (reason: string, out: Uint8Array) => {
    const count = sum(out);
    if (count === 0) return;
    dropped.set(reason, count);
    const left = values.length - count;
    tS = without(tS, out, new Float64Array(left));
    values = without(values, out, new Float64Array(left));
    clipped = without(clipped, out, new Uint8Array(left));
  };
  leaveOut("missing", missing(values));
  if (sum(clipped) > 0) dropped.set("at-ceiling", sum(clipped));
  leaveOut("restart", restartZeros(values, stepQ, column.quantity));
  leaveOut("held", heldReadings(values, clipped, stepQ));
  leaveOut("start-up", firstRows(values.length, startUpRows(values, stepQ)));
  // One at the ceiling amid far lower ones is a glitch (65 535 often says "no reading"), not a counter at its limit.
  leaveOut("spike", findSpikes(values, stepQ));

  const intervals = new Float64Array(Math.max(0, tS.length - 1));
  for (let i = 0; i < intervals.length; i++) intervals[i] = tS[i + 1]! - tS[i]!;
  const intervalS = tS.length > 1 ? median(intervals) : 0;
  return { readings: { tS, values, clipped, stepQ, intervalS, quantity: column.quantity }, dropped };
}

function missing(values: Float64Array): Uint8Array {
  const out = new Uint8Array(values.length);
  for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i]!)) out[i] = 1;
  return out;
}

/**
 * 1 where rows read exactly 0 between readings far above it on both sides: a counter that starts anew, for no air empties and
 * fills within a reading. Not of counts whose step is hidden by weights: few of them are 0 by chance.
 */
function restartZeros(values: Float64Array, stepQ: number, quantity: Channel["quantity"]): Uint8Array {
  const out = new Uint8Array(values.length);
  if (stepQ === 0 && quantity !== "mass") return out;
  const highest = values.reduce((a, b) => Math.max(a, b), 0);
  const farAbove = Math.max(HELD_ABOVE_STEPS * stepQ, FAR_SHARE * highest);
  let before = 0;
  for (let i = 1; i < values.length; i++) {
    if (values[i] === 0) continue;
    if (i > before + 1 && values[before]! > farAbove && values[i]! > farAbove) out.fill(1, before + 1, i);
    before = i;
  }
  return out;
}

function firstRows(n: number, first: number): Uint8Array {
  return new Uint8Array(n).fill(1, 0, first);
}

/**
 * 1 where a row below the ceiling repeats the last reading. Only where the counter's own noise moves it by more than two
 * steps from reading to reading: a quiet counter shows the same value twice honestly.
 */
function heldReadings(values: Float64Array, clipped: Uint8Array, stepQ: number): Uint8Array {
  const held = new Uint8Array(values.length);
  const moves = new Float64Array(values.length);
  let moved = 0;
  for (let i = 1; i < values.length; i++) {
    if (!(values[i]! > HELD_ABOVE_STEPS * stepQ)) continue;
    const move = Math.abs(values[i]! - values[i - 1]!);
    if (move > 0) moves[moved++] = move;
    else if (clipped[i] === 0) held[i] = 1;
  }
  const noisy = moved > 0 && median(moves.subarray(0, moved)) > 2.25 * stepQ; // medians of whole steps are whole or half ones
  return noisy ? held : held.fill(0);
}

/**
 * How many of the first rows (at most three) a counter wrote before it was awake: they stand away from the line
 * through the five that follow by more than a fifth and by more than six times the scatter about it.
 */
function startUpRows(values: Float64Array, stepQ: number): number {
  if (values.length < 12) return 0;
  for (let first = 3; first >= 1; first--) {
    const next = values.slice(first, first + 5);
    const slope = (next[4]! - next[0]!) / 4;
    const middle = median(next);
    const scatter = median(next.map((v, i) => Math.abs(v - middle - slope * (i - 2))));
    const expected = middle - 3 * slope;
    const away = Math.abs(values[first - 1]! - expected);
    if (away > 0.2 * Math.abs(middle) && away > 6 * 1.4826 * scatter && away > 6 * stepQ) return first;
  }
  return 0;
}

function sum(flags: Uint8Array): number {
  let total = 0;
  for (let i = 0; i < flags.length; i++) total += flags[i]!;
  return total;
}

/** What is flagged 0, written to `kept`. */
function without<T extends Float64Array | Uint8Array>(from: T, out: Uint8Array, kept: T): T {
  let place = 0;
  for (let i = 0; i < from.length; i++) if (out[i] === 0) kept[place++] = from[i]!;
  return kept;
}
