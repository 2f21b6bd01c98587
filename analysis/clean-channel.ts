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
const HELD_ABOVE_STEPS = 20;

/**
 * Distinct readings of one column: blanks, start-up rows and spikes out, values that a counter merely holds collapsed
 * to one point a reading. What was left out is counted by reason.
 */
export function cleanChannel(column: RawColumn): { readings: Readings; dropped: ReadonlyMap<string, number> } {
  const dropped = new Map<string, number>();
  const stepQ = counterStep(column.values);
  let kept = [...column.tS.keys()];
  const leaveOut = (reason: string, keep: (row: number, i: number) => boolean) => {
    const next = kept.filter(keep);
    if (next.length < kept.length) dropped.set(reason, kept.length - next.length);
    kept = next;
  };
  leaveOut("missing", (row) => Number.isFinite(column.values[row]!));
  const clippedRows = kept.filter((row) => column.clipped[row] === 1).length;
  if (clippedRows > 0) dropped.set("at-ceiling", clippedRows);
  const held = heldReadings(
    kept.map((row) => column.values[row]!),
    stepQ,
  );
  leaveOut("held", (row, i) => !held[i] || column.clipped[row] === 1);
  const startUp = startUpRows(
    kept.map((row) => column.values[row]!),
    stepQ,
  );
  leaveOut("start-up", (_, i) => i >= startUp);
  const spikes = findSpikes(
    kept.map((row) => column.values[row]!),
    stepQ,
  );
  // One at the ceiling amid far lower ones is a glitch (65 535 often says "no reading"), not a counter at its limit.
  leaveOut("spike", (_, i) => !spikes[i]);

  const tS = Float64Array.from(kept, (row) => column.tS[row]!);
  const intervals = tS.slice(1).map((t, i) => t - tS[i]!);
  const readings: Readings = {
    tS,
    values: Float64Array.from(kept, (row) => column.values[row]!),
    clipped: Uint8Array.from(kept, (row) => column.clipped[row]!),
    stepQ,
    intervalS: tS.length > 1 ? median(intervals) : 0,
    quantity: column.quantity,
  };
  return { readings, dropped };
}

/**
 * True where a row repeats the last reading. Only where the counter's own noise moves it by more than two steps from
 * reading to reading: a quiet counter shows the same value twice honestly.
 */
function heldReadings(values: readonly number[], stepQ: number): boolean[] {
  const high = (i: number) => values[i]! > HELD_ABOVE_STEPS * stepQ;
  const moves = values.flatMap((v, i) =>
    i > 0 && high(i) && v !== values[i - 1] ? [Math.abs(v - values[i - 1]!)] : [],
  );
  const noisy = moves.length > 0 && median(moves) > 2 * stepQ;
  return values.map((v, i) => noisy && i > 0 && high(i) && v === values[i - 1]);
}

/**
 * How many of the first rows (at most three) a counter wrote before it was awake: they stand away from the line
 * through the five that follow by more than a fifth and by more than six times the scatter about it.
 */
function startUpRows(values: readonly number[], stepQ: number): number {
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
