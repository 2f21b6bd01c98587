import { firstAtOrAfter, type Readings } from "./readings.ts";

/** A gap of this many intervals, longer than all the rest of a window: a clock that jumped, or another occasion. */
const GAP_INTERVALS = 20;

/** The longer side of such a gap, the window itself where it has none. */
export function besideGap(
  readings: Readings,
  fromS: number,
  toS: number,
): { fromS: number; toS: number; cut: string | null } {
  const { tS, intervalS } = readings;
  const from = firstAtOrAfter(tS, fromS);
  let to = firstAtOrAfter(tS, toS);
  if (tS[to] === toS) to++;
  const [first, last] = [tS[from] ?? fromS, tS[to - 1] ?? toS];
  for (let i = from + 1; i < to; i++) {
    const before = tS[i - 1]!;
    const after = tS[i]!;
    const gap = after - before;
    if (gap <= GAP_INTERVALS * intervalS || gap <= last - first - gap) continue;
    return before - first >= last - after
      ? { fromS, toS: before, cut: "until a gap longer than all the rest" }
      : { fromS: after, toS, cut: "after a gap longer than all the rest" };
  }
  return { fromS, toS, cut: null };
}
