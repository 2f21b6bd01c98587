import { levelOfUnitsDb } from "../analysis/sound-level.ts";
import { firstOf, type Ranked } from "./first-of.ts";
import type { Board } from "./leaderboard-board.ts";
import type { LeaderboardQuery } from "./wire/leaderboard.ts";

type Sort = LeaderboardQuery["sort"];

export interface PageOfRows {
  readonly rows: readonly number[];
  /** What the last of them was sorted by: where the next page begins; null on the last. */
  readonly next: Ranked | null;
}

/** The next `limit` rows after a place in the order, best first, equals by id. */
export function pageOf(board: Board, rows: Uint32Array, sort: Sort, after: Ranked | null, limit: number): PageOfRows {
  const key = KEYS[sort](board);
  const best =
    sort === "cadr"
      ? [...rows.subarray(placeAfter(board, rows, after)).subarray(0, limit + 1)]
      : firstOf(rows, limit + 1, key, board.ids, after);
  const page = best.slice(0, limit);
  const last = page.at(-1);
  const more = best.length > limit && last !== undefined;
  return { rows: page, next: more ? { key: key(last), id: board.ids[last]! } : null };
}

/** Where rows that come strongest first go on after a place: binary search. */
function placeAfter({ ids, figures }: Board, rows: Uint32Array, after: Ranked | null): number {
  if (after === null) return 0;
  let from = 0;
  let to = rows.length;
  while (from < to) {
    const middle = (from + to) >> 1;
    const row = rows[middle]!;
    const key = -figures.cadrM3PerH[row]!;
    if (key < after.key || (key === after.key && ids[row]! <= after.id)) from = middle + 1;
    else to = middle;
  }
  return from;
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
