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

  const timed = allRows(tS.length).filter((row) => Number.isFinite(tS[row]!));
  count("no-time", tS.length - timed.length);
  const [fromS, toS] = [series.cropFromS ?? -Infinity, series.cropToS ?? Infinity];
  const cropped = timed.filter((row) => tS[row]! >= fromS && tS[row]! <= toS);
  count("cropped", timed.length - cropped.length);
  let falling = 0;
  for (let i = 1; i < cropped.length; i++) if (tS[cropped[i]!]! < tS[cropped[i - 1]!]!) falling++;
  if (falling > cropped.length / 2) cropped.reverse();

  const forward = longestNonFalling(cropped, tS);
  count("backward-time", cropped.length - forward.length);
  const distinct = farFromNext(forward, tS, Number.MIN_VALUE);
  count("repeated-time", forward.length - distinct.length);
  const intervals = new Float64Array(Math.max(0, distinct.length - 1));
  for (let i = 0; i < intervals.length; i++) intervals[i] = tS[distinct[i + 1]!]! - tS[distinct[i]!]!;
  const rows = farFromNext(distinct, tS, BACKLOG_SHARE * median(intervals));
  count("backlog", distinct.length - rows.length);
  return { rows: [...rows], dropped };
}

function allRows(n: number): Int32Array {
  const rows = new Int32Array(n);
  for (let row = 0; row < n; row++) rows[row] = row;
  return rows;
}

/** Rows at least so long before the next kept row's time; the last is always one of them. */
function farFromNext(rows: Int32Array, tS: Float64Array, leastS: number): Int32Array {
  return rows.filter((row, i) => i === rows.length - 1 || tS[rows[i + 1]!]! - tS[row]! >= leastS);
}

/** Longest subsequence of rows whose times do not fall (patience sorting, O(n log n)). */
function longestNonFalling(rows: Int32Array, tS: Float64Array): Int32Array {
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
  const kept = new Int32Array(tails.length);
  let place = tails.length;
  for (let i = tails.at(-1) ?? -1; i >= 0; i = before[i]!) kept[--place] = rows[i]!;
  return kept;
}
