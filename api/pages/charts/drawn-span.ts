import type { DecayDrawing } from "./decay-drawing.ts";

/** Which readings are drawn, and what they span: minutes after the first row, and levels; null where none lies above zero. */
export interface DrawnSpan {
  readonly use: (i: number) => boolean;
  readonly minutes: readonly [from: number, to: number];
  readonly levels: readonly [low: number, high: number];
}

/** Readings above zero that were not left out; those that were, and the marks, lie inside the minutes too. */
export function drawnSpan({ tS, channel: { values }, leftOut = [], marks = [] }: DecayDrawing): DrawnSpan | null {
  const without = new Set(leftOut);
  const drawable = (i: number) => Number.isFinite(tS[i]!) && values[i]! > 0;
  const use = (i: number) => drawable(i) && !without.has(i);
  let [from, to, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < tS.length; i++) {
    if (!drawable(i)) continue;
    from = Math.min(from, tS[i]! / 60);
    to = Math.max(to, tS[i]! / 60);
    if (!use(i)) continue;
    low = Math.min(low, values[i]!);
    high = Math.max(high, values[i]!);
  }
  if (!(high > 0)) return null;
  for (const mark of marks) [from, to] = [Math.min(from, mark.tS / 60), Math.max(to, mark.tS / 60)];
  return { use, minutes: [from, to > from ? to : from + 1], levels: [low, high] };
}
