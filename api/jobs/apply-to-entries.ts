import type { Connection, Database } from "../../db/database.ts";
import { type Applied, insertApplied } from "../../db/insert-applied.ts";
import { type EntryState, readEntriesAt } from "../../db/members.ts";
import { type Known, repool } from "../repool.ts";
import { retrying } from "../store-trial.ts";

/** What holds for all entries, and how those are found that were pooled before it did. */
export interface Application {
  readonly kind: Applied["kind"];
  /** What holds now, as `repool` takes it, with a number of its own. */
  find(connection: Connection): Promise<{ readonly id: number; readonly known: Known }>;
  /** Entries after an id that may be pooled with something else, in order of their ids. */
  list(connection: Connection, known: Known, after: string, limit: number): Promise<Listed[]>;
  /** Whether an entry is to be pooled again: a rebuild asks the same of each up to the batch's last. */
  isStale(state: EntryState, known: Known): boolean;
}

interface Listed {
  readonly entry: string;
  readonly setting: number;
  /** Whether a merge moved its trials elsewhere. */
  readonly moved?: boolean;
}

/** How many batches one call may take, and of how many entries. */
export interface Limits {
  readonly batches: number;
  readonly size: number;
}

/** Entries pooled again in one batch are few, so that a trial being stored hardly waits. */
export const NO_LIMITS: Limits = { batches: Infinity, size: 25 };

/** How far one value was applied: all entries up to an id are done. */
interface Position {
  readonly id: number;
  readonly after: string;
}
type Batch = Position & { readonly count: number };

/**
 * Pools every entry again that was pooled with something else than what holds now, in small batches. It may be stopped at
 * any time and called again, by several at once.
 */
export async function applyToEntries(
  db: Database,
  now: () => Date,
  application: Application,
  { batches, size }: Limits,
): Promise<{ readonly repooled: number; readonly used: number; readonly done: boolean }> {
  let repooled = 0;
  let position: Position = { id: 0, after: "" };
  for (let used = 0; used < batches; used++) {
    const batch: Batch | null = await applyOnce(db, now, application, position, size);
    if (batch === null) return { repooled, used, done: true };
    repooled += batch.count;
    position = batch;
  }
  return { repooled, used: batches, done: false };
}

/** One batch of entries, the first after a position; null where none is left. */
async function applyOnce(
  db: Database,
  now: () => Date,
  { kind, find, list, isStale }: Application,
  position: Position,
  size: number,
): Promise<Batch | null> {
  return retrying(() =>
    db.write(async (connection) => {
      const { id, known } = await find(connection);
      const after = id === position.id ? position.after : ""; // else all is to be done again
      const listed = await list(connection, known, after, size);
      const last = listed.at(-1)?.entry;
      if (last === undefined) return null;
      const wanted = new Map(listed.map((each) => [each.entry, each]));
      const states = await readEntriesAt(connection, [...new Set(listed.map(({ setting }) => setting))]);
      // Whoever changed an entry since the list was read has pooled it with what holds: a rebuild leaves it out as well.
      const changes = states.flatMap((read) => {
        const found = wanted.get(read.entry.id);
        if (!found) return [];
        const state = found.moved ? { ...read, members: [] } : read;
        return isStale(state, known) ? [{ state, members: state.members }] : [];
      });
      if (changes.length > 0) {
        const pools = await repool(connection, changes, known);
        await insertApplied(connection, { kind, upTo: last, at: now().toISOString(), pools });
      }
      return { count: changes.length, id, after: last };
    }),
  );
}
