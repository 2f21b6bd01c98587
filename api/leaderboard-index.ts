import type { Database } from "../db/database.ts";
import type { Basis } from "../db/entries.ts";
import {
  type Band,
  findLastSeq,
  listChangedStandings,
  listLastRemovals,
  listLastRewordings,
  listPastStandings,
  listStandings,
  type PastState,
  type StandingFigures,
} from "../db/leaderboard.ts";
import { Board } from "./leaderboard-board.ts";

/** All boards of a database, with the seq of the last event they know of. */
interface Index {
  seq: number;
  readonly boards: Map<string, Board>;
}

/** What is remembered of each database. It holds no promise: in a Worker one request may not wait for another's answers. */
const INDEXES = new WeakMap<object, Index>();

/**
 * The board of a band on a basis as it stands now, brought up to the newest event first, so that any number of processes
 * on one database answer alike. Use it before the next await: later answers change it.
 */
export async function currentBoard(db: Database, band: Band, basis: Basis): Promise<Board> {
  let index = INDEXES.get(db.identity);
  if (!index) {
    const loaded = await load(db);
    index = INDEXES.get(db.identity) ?? loaded; // another request may have come first
    INDEXES.set(db.identity, index);
  }
  await bringUpToDate(db, index);
  return boardOf(index, band, basis);
}

/** The board as it stood then, made from the history of pooled figures and not remembered. */
export async function pastBoard(db: Database, band: Band, basis: Basis, past: PastState): Promise<Board> {
  const board = new Board(band, basis);
  board.apply(await listPastStandings(db.read, band, basis, past));
  return board;
}

async function bringUpToDate(db: Database, index: Index): Promise<void> {
  const known = index.seq;
  if ((await findLastSeq(db.read)) <= known) return;
  const { seq, changed } = await listChangedStandings(db.read, known);
  if (index.seq >= seq) return; // another request was quicker, and further
  // Where it was quicker but less far the same rows come once more: they are whole, and do no harm.
  take(index, changed);
  index.seq = seq;
}

function take(index: Index, rows: readonly StandingFigures[]): void {
  for (const [key, some] of Map.groupBy(rows, ({ band, basis }) => keyOf(band, basis))) {
    const [{ band, basis }] = some as [StandingFigures];
    boardOf(index, band, basis, key).apply(some);
  }
}

const ROWS_AT_ONCE = 5000; // a page of rows in memory at a time: whole, they would weigh ten times what the boards do

async function load(db: Database): Promise<Index> {
  const seq = await findLastSeq(db.read); // what comes while loading is taken in again afterwards
  const index: Index = { seq, boards: new Map() };
  let after = { entry: "", basis: "" };
  for (;;) {
    const rows = await listStandings(db.read, after, ROWS_AT_ONCE);
    take(index, rows);
    const last = rows.at(-1);
    if (!last || rows.length < ROWS_AT_ONCE) break;
    after = { entry: last.entry, basis: last.basis };
  }
  for (const { band, basis, seq } of [...(await listLastRemovals(db.read)), ...(await listLastRewordings(db.read))]) {
    const board = boardOf(index, band as Band, basis as Basis);
    board.lastSeq = Math.max(board.lastSeq, seq);
  }
  return index;
}

function boardOf(index: Index, band: Band, basis: Basis, key = keyOf(band, basis)): Board {
  const known = index.boards.get(key);
  if (known) return known;
  const board = new Board(band, basis);
  index.boards.set(key, board);
  return board;
}

const keyOf = (band: string, basis: string) => `${band} ${basis}`;
