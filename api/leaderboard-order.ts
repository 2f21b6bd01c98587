import { levelOfUnitsDb } from "../analysis/sound-level.ts";
import type { Board } from "./leaderboard-board.ts";
import type { LeaderboardQuery } from "./wire/leaderboard.ts";

type Sort = LeaderboardQuery["sort"];

/** Where a page ended: what its last entry was sorted by, and which it was. */
export interface Cursor {
  readonly key: number;
  readonly entry: string;
}

export interface PageOfRows {
  readonly rows: readonly number[];
  /** Where the next page begins; null on the last. */
  readonly next: Cursor | null;
}

/** The next `limit` rows after a cursor, best first, equals by id. O(n log limit), with no sort of the whole list. */
export function pageOf(board: Board, rows: Uint32Array, sort: Sort, after: Cursor | null, limit: number): PageOfRows {
  const key = KEYS[sort](board);
  const before = (a: number, b: number) => {
    const difference = key(a) - key(b);
    return difference < 0 || (difference === 0 && board.ids[a]! < board.ids[b]!);
  };
  const isAfter = (row: number) => {
    if (after === null) return true;
    const mine = key(row);
    return mine > after.key || (mine === after.key && board.ids[row]! > after.entry);
  };
  const best = firstOf(rows, limit + 1, before, isAfter);
  const page = best.slice(0, limit);
  const last = page.at(-1);
  const more = best.length > limit && last !== undefined;
  return { rows: page, next: more ? { key: key(last), entry: board.ids[last]! } : null };
}

/** Units that bring 300 m³/h: ⌈300/CADR⌉, at least 1; infinitely many where a unit cleans nothing. */
export function unitsFor300(cadrM3PerH: number): number {
  return cadrM3PerH > 0 ? Math.max(1, Math.ceil(300 / cadrM3PerH)) : Infinity;
}

/** What each order compares; less is better. */
const KEYS: Record<Sort, (board: Board) => (row: number) => number> = {
  cadr:
    ({ figures: { cadrM3PerH } }) =>
    (row) =>
      -cadrM3PerH[row]!,
  cadr_low:
    ({ figures: { low } }) =>
    (row) =>
      -low[row]!,
  cadr_per_watt:
    ({ figures: { cadrM3PerH, powerW } }) =>
    (row) =>
      -cadrM3PerH[row]! / powerW[row]!,
  cadr_per_cost:
    ({ figures: { cadrM3PerH, cost } }) =>
    (row) =>
      -cadrM3PerH[row]! / cost[row]!,
  noise:
    ({ figures: { noiseDb } }) =>
    (row) =>
      noiseDb[row]!,
  noise_for_300:
    ({ figures: { noiseDb, cadrM3PerH } }) =>
    (row) => {
      return levelOfUnitsDb(noiseDb[row]!, unitsFor300(cadrM3PerH[row]!));
    },
};

/** The first `count` of those that pass, in order: a heap of the best so far with the worst of them on top. */
function firstOf(
  rows: Uint32Array,
  count: number,
  before: (a: number, b: number) => boolean,
  passes: (row: number) => boolean,
): number[] {
  const heap: number[] = [];
  for (const row of rows) {
    if (!passes(row)) continue;
    if (heap.length < count) rise(heap, row, before);
    else if (before(row, heap[0]!)) sink(heap, row, before);
  }
  return heap.sort((a, b) => (before(a, b) ? -1 : 1));
}

function rise(heap: number[], row: number, before: (a: number, b: number) => boolean): void {
  let at = heap.push(row) - 1;
  while (at > 0) {
    const parent = (at - 1) >> 1;
    if (!before(heap[parent]!, row)) break;
    heap[at] = heap[parent]!;
    at = parent;
  }
  heap[at] = row;
}

function sink(heap: number[], row: number, before: (a: number, b: number) => boolean): void {
  let at = 0;
  for (;;) {
    const left = 2 * at + 1;
    if (left >= heap.length) break;
    const right = left + 1;
    const child = right < heap.length && before(heap[left]!, heap[right]!) ? right : left;
    if (!before(row, heap[child]!)) break;
    heap[at] = heap[child]!;
    at = child;
  }
  heap[at] = row;
}
