import { type EntryMembers, type LearntSpread, learnSpread } from "../../analysis/pooling/learn-spread.ts";
import type { Database } from "../../db/database.ts";
import { readEntriesAt } from "../../db/members.ts";
import { findSpread, insertSpread, listStale, listTelling, type StoredSpread } from "../../db/spreads.ts";
import { toPoolMember } from "../pool-entry.ts";
import { retrying } from "../store-trial.ts";
import { type Application, applyToEntries, type Limits, NO_LIMITS } from "./apply-to-entries.ts";

/** Laboratories differ on an entry from three on. */
const LEAST_SUBMITTERS = 3;
/** Entries looked at; of more the first by id, which are a sample by chance, for ids are random. */
const MOST_ENTRIES = 5000;
const SETTINGS_A_READ = 50;

/** A change that no reader would notice is not worth a new figure of every entry. */
const NOTICEABLE_RATIO = 1.05;
const NOTICEABLE_DOF_RATIO = 1.25;

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
  limits: Limits = NO_LIMITS,
): Promise<LearnOutcome> {
  const before = await applyToEntries(db, now, SPREAD_APPLICATION, limits); // what an earlier call left
  const learnt = before.done && (await learnOnce(db, now));
  const batches = limits.batches - before.used;
  const after = learnt ? await applyToEntries(db, now, SPREAD_APPLICATION, { ...limits, batches }) : before;
  const repooled = before.repooled + (learnt ? after.repooled : 0);
  return { spread: await findSpread(db.read), learnt, repooled, done: after.done };
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

/** The newest spread, applied to entries that were pooled with another. */
const SPREAD_APPLICATION: Application = {
  kind: "spread-applied",
  async find(connection) {
    const spread = await findSpread(connection);
    return { id: spread.id, known: { spread } };
  },
  list: (connection, { spread }, after, limit) => listStale(connection, spread!.id, after, limit),
  isStale: ({ previous, members }, { spread }) => members.length > 0 && previous.get("all")?.spread !== spread!.id,
};
