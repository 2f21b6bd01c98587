import { type EntryMembers, type LearntSpread, learnSpread } from "../../analysis/pooling/learn-spread.ts";
import type { Database } from "../../db/database.ts";
import { readEntriesAt } from "../../db/members.ts";
import {
  findSpread,
  insertApplied,
  insertSpread,
  listStale,
  listTelling,
  type StoredSpread,
} from "../../db/spreads.ts";
import { toPoolMember } from "../pool-entry.ts";
import { repool } from "../repool.ts";
import { retrying } from "../store-trial.ts";

/** Laboratories differ on an entry from three on. */
const LEAST_SUBMITTERS = 3;
/** Entries looked at; of more the first by id, which are a sample by chance, for ids are random. */
const MOST_ENTRIES = 5000;
/** Settings read at once, and entries pooled again in one batch: small, so that a trial being stored hardly waits. */
const SETTINGS_A_READ = 50;
const ENTRIES_A_BATCH = 25;

/** A change that no reader would notice is not worth a new figure of every entry. */
const NOTICEABLE_RATIO = 1.05;
const NOTICEABLE_DOF_RATIO = 1.25;

/** How many batches one call may take, and of how many entries. */
export interface Limits {
  readonly batches: number;
  readonly size: number;
}

export interface LearnOutcome {
  readonly spread: StoredSpread;
  readonly learnt: boolean;
  readonly repooled: number;
  /** False where `batches` ran out first: the next call goes on. */
  readonly done: boolean;
}

/**
 * Learns anew how much laboratories differ and pools what rests on another value again, in small batches. It may be stopped
 * at any time and called again: it first finishes what an earlier call left. `batches` bounds one call in the Worker.
 */
export async function learnSpreadAnew(
  db: Database,
  now: () => Date,
  { batches, size }: Limits = { batches: Infinity, size: ENTRIES_A_BATCH },
): Promise<LearnOutcome> {
  let repooled = 0;
  let left = batches;
  const apply = async () => {
    for (let position: Position = { spread: 0, after: "" }; left > 0; left--) {
      const batch: Batch | null = await applyOnce(db, now, position, size);
      if (batch === null) return true;
      repooled += batch.count;
      position = batch;
    }
    return false;
  };
  if (!(await apply())) return { spread: await findSpread(db.read), learnt: false, repooled, done: false };
  const learnt = await learnOnce(db, now);
  const done = learnt ? await apply() : true;
  return { spread: await findSpread(db.read), learnt, repooled, done };
}

async function learnOnce(db: Database, now: () => Date): Promise<boolean> {
  const before = await findSpread(db.read);
  const found = learnSpread(await readTelling(db));
  if (!differsNoticeably(before, found)) return false;
  const { relative, dof, source, entries } = found;
  const row = { id: before.id + 1, at: now().toISOString(), relative, dof, source, entries };
  return retrying(() =>
    db.write(async (connection) => {
      if ((await findSpread(connection)).id !== before.id) return false; // another call has just learnt it
      await insertSpread(connection, row);
      return true;
    }),
  );
}

export function differsNoticeably(before: Omit<LearntSpread, "entries">, now: Omit<LearntSpread, "entries">): boolean {
  const ratio = (a: number, b: number) => Math.exp(Math.abs(Math.log(a / b)));
  return (
    before.source !== now.source ||
    ratio(now.relative, before.relative) > NOTICEABLE_RATIO ||
    ratio(now.dof, before.dof) > NOTICEABLE_DOF_RATIO
  );
}

async function readTelling(db: Database): Promise<EntryMembers[]> {
  const settings = await listTelling(db.read, LEAST_SUBMITTERS, MOST_ENTRIES);
  const entries: EntryMembers[] = [];
  for (let at = 0; at < settings.length; at += SETTINGS_A_READ) {
    const states = await readEntriesAt(db.read, settings.slice(at, at + SETTINGS_A_READ));
    for (const { entry, members } of states) {
      if (members.length < LEAST_SUBMITTERS) continue;
      entries.push({ invented: entry.invented, members: members.map(toPoolMember) });
    }
  }
  return entries;
}

/** How far one spread was applied: all entries up to an id are done. */
interface Position {
  readonly spread: number;
  readonly after: string;
}
type Batch = Position & { readonly count: number };

/** One batch of entries, the first after a position, pooled with the spread that holds; null where none is left. */
async function applyOnce(db: Database, now: () => Date, position: Position, size: number): Promise<Batch | null> {
  return retrying(() =>
    db.write(async (connection) => {
      const spread = await findSpread(connection);
      const after = spread.id === position.spread ? position.after : ""; // else all is to be done again
      const stale = await listStale(connection, spread.id, after, size);
      const last = stale.at(-1)?.entry;
      if (last === undefined) return null;
      const wanted = new Set(stale.map(({ entry }) => entry));
      const states = await readEntriesAt(connection, [...new Set(stale.map(({ setting }) => setting))]);
      // Whoever changed an entry since the list was read has pooled it with the new spread: a rebuild leaves it out as well.
      const changes = states.flatMap((state) => {
        const { entry, previous, members } = state;
        const still = wanted.has(entry.id) && members.length > 0 && previous.get("all")?.spread !== spread.id;
        return still ? [{ state, members }] : [];
      });
      if (changes.length > 0) {
        const pools = await repool(connection, changes, spread);
        await insertApplied(connection, { upTo: last, at: now().toISOString(), pools });
      }
      return { count: changes.length, spread: spread.id, after: last };
    }),
  );
}
