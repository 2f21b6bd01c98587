import { median } from "./median.ts";
import type { Series } from "./trial.ts";

/** The rows of a series whose time can be trusted: their numbers, in time order, and what was left out. */
export interface CleanRows {
  readonly rows: readonly number[];
  readonly dropped: ReadonlyMap<string, number>;
}

/** Rows nearer to the next than this share of the median interval came late, all at once: the last is the fresh one. */
const BACKLOG_SHARE = 0.2;

/**
 * Rows with a readable time, inside the crop, in time order. A series sent newest first is turned round; a row that
 * jumps back is left out (the longest rising run of stamps is kept), so are repeated stamps and backlog rows.
 */
export function cleanRows(series: Series): CleanRows {
  const { tS } = series;
  const dropped = new Map<string, number>();
  const count = (reason: string, n: number) => n > 0 && dropped.set(reason, n);

  const timed = [...tS.keys()].filter((row) => Number.isFinite(tS[row]!));
  count("no-time", tS.length - timed.length);
  const cropped = timed.filter(
    (row) => tS[row]! >= (series.cropFromS ?? -Infinity) && tS[row]! <= (series.cropToS ?? Infinity),
  );
  count("cropped", timed.length - cropped.length);
  const falling = cropped.filter((row, i) => i > 0 && tS[row]! < tS[cropped[i - 1]!]!).length;
  if (falling > cropped.length / 2) cropped.reverse();

  const forward = longestNonFalling(cropped, tS);
  count("backward-time", cropped.length - forward.length);
  const distinct = forward.filter((row, i) => i === forward.length - 1 || tS[forward[i + 1]!]! > tS[row]!);
  count("repeated-time", forward.length - distinct.length);
  const interval = median(distinct.slice(1).map((row, i) => tS[row]! - tS[distinct[i]!]!));
  const rows = distinct.filter(
    (row, i) => i === distinct.length - 1 || tS[distinct[i + 1]!]! - tS[row]! >= BACKLOG_SHARE * interval,
  );
  count("backlog", distinct.length - rows.length);
  return { rows, dropped };
}

/** Longest subsequence of rows whose times do not fall (patience sorting, O(n log n)). */
function longestNonFalling(rows: readonly number[], tS: Float64Array): number[] {
  const tails: number[] = [];
  const before = new Int32Array(rows.length).fill(-1);
  for (let i = 0; i < rows.length; i++) {
    const t = tS[rows[i]!]!;
    let low = 0;
    let high = tails.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (tS[rows[tails[middle]!]!]! <= t) low = middle + 1;
      else high = middle;
    }
    before[i] = low > 0 ? tails[low - 1]! : -1;
    tails[low] = i;
  }
  const kept: number[] = [];
  for (let i = tails.at(-1) ?? -1; i >= 0; i = before[i]!) kept.push(rows[i]!);
  return kept.reverse();
}
