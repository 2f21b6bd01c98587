import { parseUnit, UnitError } from "../analysis/units.ts";
import type { Database } from "../db/database.ts";
import { findPastChange, findSeqAt, type PastState, wordsAt } from "../db/leaderboard.ts";
import { findInstant, listRows } from "../db/leaderboard-rows.ts";
import type { Ranked } from "./first-of.ts";
import { currentBoard, pastBoard } from "./leaderboard-index.ts";
import { pageOf } from "./leaderboard-order.ts";
import { standingsOf } from "./leaderboard-ranks.ts";
import { commonestCurrency, select } from "./leaderboard-selection.ts";
import { listMixedEntries } from "./list-mixed-entries.ts";
import { invalid } from "./problem.ts";
import type { LeaderboardOut, LeaderboardQuery } from "./wire/leaderboard.ts";
import { writeRankedEntry } from "./write-ranked-entry.ts";

/** One page of the leaderboard of a band on a basis. `href` is the request's own path and query. */
export async function readLeaderboard(db: Database, query: LeaderboardQuery, href: string): Promise<LeaderboardOut> {
  const { band, basis, sort, limit } = query;
  const unit = flowUnit(query.unit);
  const after = query.cursor === undefined ? null : readCursor(query.cursor);
  const past = query.as_of === undefined ? null : await pastState(db, query.as_of);
  const board = past ? await pastBoard(db, band, basis, past) : await currentBoard(db, band, basis);

  // From here to the next await the board stays as it is.
  const byCost = query.cost_max !== undefined || sort === "cadr_per_cost";
  const currency = byCost ? (query.cost_max?.currency ?? query.currency ?? commonestCurrency(board)) : null;
  const { rows, excluded, mixed, turnedDown } = select(board, query, query, currency);
  const page = pageOf(board, rows, sort, after, limit);
  const standings = standingsOf(board, rows, page.rows);
  const shown = page.rows.map((row) => ({ entry: board.ids[row]!, seq: board.seqs[row]! }));
  const { lastSeq } = board;
  const count = rows.length;

  const mixedIds = mixed.map((row) => board.ids[row]!);
  const [found, asOf, mixedEntries] = await Promise.all([
    listRows(db.read, basis, shown, past ? wordsAt(past) : undefined),
    past
      ? findPastChange(db.read, band, basis, past).then((seq) => findInstant(db.read, seq))
      : findInstant(db.read, lastSeq),
    listMixedEntries(db, mixedIds, query, unit),
  ]);
  const rowOf = new Map(found.map((row) => [row.pooled.entry, row]));
  return {
    band,
    basis,
    sort,
    unit,
    currency,
    as_of: asOf,
    shown: count,
    turned_down: turnedDown,
    excluded,
    mixed: mixedEntries,
    entries: shown.map(({ entry }, i) => writeRankedEntry(rowOf.get(entry)!, standings[i]!, unit)),
    next: page.next ? nextPage(href, page.next) : null,
  };
}

/** The currency in which most entries of a band on a basis state a cost, null where none does. */
export async function findCommonestCurrency(db: Database, { band, basis }: Pick<LeaderboardQuery, "band" | "basis">) {
  return commonestCurrency(await currentBoard(db, band, basis));
}

/** The state at an instant: all events until then. */
async function pastState(db: Database, instant: string): Promise<PastState> {
  return { seq: await findSeqAt(db.read, instant), instant };
}

/** The canonical code of a flow unit asked for in a query. */
export function flowUnit(text: string): string {
  try {
    return parseUnit(text, "flow").code;
  } catch (error) {
    if (error instanceof UnitError) throw invalid(["unit"], error.message);
    throw error;
  }
}

function nextPage(href: string, { key, id }: Ranked): string {
  const url = new URL(href);
  url.searchParams.set("cursor", `${key}~${id}`);
  return url.toString();
}

function readCursor(text: string): Ranked {
  const [key, id, ...rest] = text.split("~");
  const cursor = { key: Number(key), id: id ?? "" };
  if (rest.length || !key || !id || Number.isNaN(cursor.key)) {
    throw invalid(["cursor"], "A cursor is taken from `next` as it stands.");
  }
  return cursor;
}
