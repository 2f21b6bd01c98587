import { type Board, COMMERCIAL, INVENTED, SINGLE_UNPAIRED } from "./leaderboard-board.ts";
import { MOST_MIXED } from "./list-mixed-entries.ts";
import { AEROSOL_KINDS, type EXCLUDED, type LeaderboardQuery } from "./wire/leaderboard.ts";

export type Excluded = (typeof EXCLUDED)[number];
export type Filters = Pick<
  LeaderboardQuery,
  "kind" | "aerosol" | "noise_max" | "cost_max" | "power_max" | "min_rooms" | "unpaired"
> &
  Partial<Pick<LeaderboardQuery, "invented">>;
type Needs = Pick<LeaderboardQuery, "sort">;

/** Rows of a board that are shown, strongest first, and how many are not because they lack what was asked about. */
export interface Selection {
  readonly rows: Uint32Array;
  readonly excluded: Partial<Record<Excluded, number>>;
  /** The first of those excluded as mixed, strongest first. */
  readonly mixed: readonly number[];
  /** How many do not fit what was asked. */
  readonly turnedDown: number;
}

/** The selections last asked of a board, as it stood then: pages follow each other, and many readers ask alike. */
const LAST = new WeakMap<Board, { readonly version: number; readonly selections: Map<string, Selection> }>();
const REMEMBERED = 6;

/** The rows that pass, of a board as it stands. */
export function select(board: Board, filters: Filters, needs: Needs, currency: string | null): Selection {
  const last = LAST.get(board);
  const kept =
    last?.version === board.version ? last : { version: board.version, selections: new Map<string, Selection>() };
  LAST.set(board, kept);
  const { kind, aerosol, noise_max, cost_max, power_max, min_rooms, unpaired, invented } = filters;
  const key = JSON.stringify([
    kind,
    aerosol,
    noise_max,
    cost_max,
    power_max,
    min_rooms,
    unpaired,
    invented,
    needs.sort,
    currency,
  ]);
  const selection = kept.selections.get(key) ?? pass(board, filters, needs, currency);
  kept.selections.delete(key); // and put at the end: the first is the one asked for longest ago
  kept.selections.set(key, selection);
  if (kept.selections.size > REMEMBERED) kept.selections.delete(kept.selections.keys().next().value!);
  return selection;
}

/** What a filter says of a row: shown, turned down, or the reason why it cannot tell. */
type Verdict = "shown" | "no" | Excluded;
type Filter = (row: number) => Verdict;

/** One pass over a board. A row that any filter turns down is not counted; of several reasons the first is. */
function pass(board: Board, filters: Filters, needs: Needs, currency: string | null): Selection {
  const asked = filtersOf(board, filters, needs, currency);
  const rows = new Uint32Array(board.order.length);
  const excluded: Partial<Record<Excluded, number>> = {};
  const mixed: number[] = [];
  let shown = 0;
  let turnedDown = 0;
  for (let i = 0; i < board.order.length; i++) {
    const row = board.order[i]!;
    let verdict: Verdict = "shown";
    for (const filter of asked) {
      const one = filter(row);
      if (one === "shown") continue;
      if (verdict === "shown" || one === "no") verdict = one;
      if (one === "no") break;
    }
    if (verdict === "shown") rows[shown++] = row;
    else if (verdict === "no") turnedDown++;
    else {
      excluded[verdict] = (excluded[verdict] ?? 0) + 1;
      if (verdict === "mixed_aerosol" && mixed.length < MOST_MIXED) mixed.push(row);
    }
  }
  return { rows: rows.slice(0, shown), excluded, mixed, turnedDown };
}

function filtersOf(board: Board, filters: Filters, { sort }: Needs, currency: string | null): Filter[] {
  const { figures, flags } = board;
  const asked: Filter[] = [];
  const add = (filter: Filter) => asked.push(filter);
  if (filters.unpaired === "exclude") add((row) => (flags[row]! & SINGLE_UNPAIRED ? "single_unpaired" : "shown"));
  if (filters.invented === "exclude") add((row) => (flags[row]! & INVENTED ? "no" : "shown"));
  if (filters.kind !== undefined) {
    const wanted = filters.kind === "commercial" ? COMMERCIAL : 0;
    add((row) => ((flags[row]! & COMMERCIAL) === wanted ? "shown" : "no"));
  }
  if (filters.min_rooms !== undefined) {
    const least = filters.min_rooms;
    add((row) => (board.rooms[row]! >= least ? "shown" : "no"));
  }
  if (filters.aerosol !== undefined) {
    const bit = 1 << AEROSOL_KINDS.indexOf(filters.aerosol);
    add((row) => {
      const used = board.aerosols[row]!;
      return used === bit ? "shown" : used & bit ? "mixed_aerosol" : "no";
    });
  }
  if (filters.noise_max !== undefined) {
    const most = filters.noise_max;
    add((row) => {
      const level = figures.noiseDb[row]!;
      if (!Number.isNaN(level)) return level <= most ? "shown" : "no";
      const bound = figures.noiseHighDb[row]!;
      return Number.isNaN(bound) ? "no_noise" : bound <= most ? "shown" : "noise_bound";
    });
  }
  if (filters.power_max !== undefined) {
    const most = filters.power_max;
    add((row) => (Number.isNaN(figures.powerW[row]!) ? "no_power" : figures.powerW[row]! <= most ? "shown" : "no"));
  }
  if (filters.cost_max !== undefined || sort === "cadr_per_cost") {
    const most = filters.cost_max?.value ?? Infinity;
    const place = currency === null ? -1 : board.currencies.indexOf(currency);
    add((row) => {
      if (board.currency[row] === 0) return "no_cost";
      return board.currency[row] !== place ? "other_currency" : figures.cost[row]! <= most ? "shown" : "no";
    });
  }
  if (sort === "cadr_per_cost") add((row) => (figures.cost[row]! > 0 ? "shown" : "no_cost"));
  if (sort === "cadr_per_watt") add((row) => (figures.powerW[row]! > 0 ? "shown" : "no_power"));
  if (sort === "noise" || sort === "noise_for_300") {
    add((row) => {
      if (!Number.isNaN(figures.noiseDb[row]!)) return "shown";
      return Number.isNaN(figures.noiseHighDb[row]!) ? "no_noise" : "noise_bound";
    });
  }
  return asked;
}

/** The currency in which most entries name a cost; of equals the first by its letters. Null where none does. */
export function commonestCurrency(board: Board): string | null {
  const counts = board.currencies.map(() => 0);
  for (const row of board.order) counts[board.currency[row]!]!++;
  const named = board.currencies.map((code, i) => ({ code, count: counts[i]! })).slice(1);
  named.sort((a, b) => b.count - a.count || (a.code < b.code ? -1 : 1));
  return named[0]?.count ? named[0].code : null;
}
