import type { Database } from "../db/database.ts";
import type { Basis } from "../db/entries.ts";
import {
  type Band,
  countStandings,
  findLastChange,
  findLastSeq,
  listChangedStandings,
  listPastStandings,
  listStandings,
  type PastState,
  type StandingFigures,
} from "../db/leaderboard.ts";
import { Board } from "./leaderboard-board.ts";

/**
 * The boards of each database that were asked for, each with the last event it knows of. No promise is kept: in a Worker
 * one request may not wait for what another asked.
 */
const BOARDS = new WeakMap<object, Map<string, Board>>();

/**
 * The board of a band on a basis as it stands now, brought up to the newest event first, so that any number of processes
 * on one database answer alike. Use it before the next await: later answers change it.
 */
export async function currentBoard(db: Database, band: Band, basis: Basis): Promise<Board> {
  const boards = BOARDS.get(db.identity) ?? new Map<string, Board>();
  BOARDS.set(db.identity, boards);
  const key = `${band} ${basis}`;
  if (!boards.has(key)) {
    const loaded = await load(db, band, basis);
    if (!boards.has(key)) boards.set(key, loaded); // another request may have come first
  }
  const board = boards.get(key)!;
  await bringUpToDate(db, board);
  return board;
}

/** The board as it stood then, made from the history of pooled figures and not remembered. */
export async function pastBoard(db: Database, band: Band, basis: Basis, past: PastState): Promise<Board> {
  const board = new Board(band, basis);
  board.apply(await listPastStandings(db.read, band, basis, past));
  return board;
}

async function bringUpToDate(db: Database, board: Board): Promise<void> {
  const known = board.seq;
  if ((await findLastSeq(db.read)) <= known) return;
  const { seq, changed } = await listChangedStandings(db.read, board.band, board.basis, known);
  if (board.seq >= seq) return; // another request was quicker, and further
  // Where it was quicker but less far the same rows come once more: they are whole, and do no harm.
  board.apply(changed);
  board.seq = seq;
}

const HEADROOM = 1.05;
const ROWS_AT_ONCE = 2000; // a page of rows in memory at a time: whole, they would weigh ten times what the board does

/** What changes while it is loaded comes after its seq, and is taken in again when it is brought up to date. */
async function load(db: Database, band: Band, basis: Basis): Promise<Board> {
  const board = new Board(band, basis);
  board.seq = await findLastSeq(db.read);
  board.reserve(Math.ceil(HEADROOM * (await countStandings(db.read, band, basis))));
  let after: { cadrM3PerH: number; entry: string } | null = null;
  for (;;) {
    const rows: StandingFigures[] = await listStandings(db.read, band, basis, after, ROWS_AT_ONCE);
    board.append(rows);
    const last = rows.at(-1);
    if (!last || rows.length < ROWS_AT_ONCE) break;
    after = { cadrM3PerH: last.cadrM3PerH!, entry: last.entry };
  }
  board.lastSeq = await findLastChange(db.read, band, basis);
  return board;
}
