import { and, desc, eq, inArray, sql } from "drizzle-orm";
import { newestWords } from "./configurations.ts";
import type { Connection, Database } from "./database.ts";
import { configurationRevisions, configurations, settings } from "./schema/configurations.ts";
import { roomRevisions } from "./schema/identity.ts";
import { entries, pooled, trialStates } from "./schema/standings.ts";
import { resultBands, trialRevisions, trials } from "./schema/trials.ts";
import { StoreError } from "./store-error.ts";

export type Entry = typeof entries.$inferSelect;
export type Pooled = typeof pooled.$inferSelect;

/** Joins a trial with the newest volume of its room. */
export const newestVolume = and(
  eq(roomRevisions.room, trials.room),
  sql`${roomRevisions.revision} = (SELECT max(v.revision) FROM ${roomRevisions} v WHERE v.room = ${trials.room})`,
)!;

/** One trial's figures as a member of an entry. */
export interface Member {
  readonly trial: string;
  readonly revision: number;
  readonly submitter: string;
  readonly interest: string;
  readonly aerosol: string;
  readonly room: string;
  readonly volumeM3: number;
  readonly volumeU: number;
  readonly kDifferencePerH: number;
  readonly kDifferenceU: number;
  readonly kDifferenceDof: number | null;
  readonly paired: boolean;
}

/** The entries of a setting, one a band that has results. */
export async function listEntries(connection: Connection, setting: number, invented: boolean): Promise<Entry[]> {
  return connection
    .select()
    .from(entries)
    .where(and(eq(entries.setting, setting), eq(entries.invented, invented)));
}

/** The trials that count in an entry: listed or questioned, each with its newest revision and the room's newest volume. */
export async function listMembers(connection: Connection, entry: Entry, methodVersion: string): Promise<Member[]> {
  return connection
    .select({
      trial: trials.id,
      revision: resultBands.revision,
      submitter: trials.submitter,
      interest: trials.interest,
      aerosol: trials.aerosol,
      room: trials.room,
      volumeM3: roomRevisions.volumeM3,
      volumeU: roomRevisions.volumeU,
      kDifferencePerH: resultBands.kDifferencePerH,
      kDifferenceU: resultBands.kDifferenceU,
      kDifferenceDof: resultBands.kDifferenceDof,
      paired: resultBands.paired,
    })
    .from(trials)
    .innerJoin(trialStates, and(eq(trialStates.trial, trials.id), inArray(trialStates.state, ["listed", "questioned"])))
    .innerJoin(
      resultBands,
      and(
        eq(resultBands.trial, trials.id),
        eq(resultBands.band, entry.band),
        eq(resultBands.methodVersion, methodVersion),
        sql`${resultBands.revision} = (SELECT max(r.revision) FROM ${trialRevisions} r WHERE r.trial = ${trials.id})`,
      ),
    )
    .innerJoin(roomRevisions, newestVolume)
    .where(and(eq(trials.setting, entry.setting), eq(trials.invented, entry.invented)))
    .orderBy(trials.id);
}

/** The newest pooled row of an entry, null before its first. */
export async function findPooled(connection: Connection, entry: string): Promise<Pooled | null> {
  const [row] = await connection
    .select()
    .from(pooled)
    .where(and(eq(pooled.entry, entry), eq(pooled.basis, "all")))
    .orderBy(desc(pooled.seq))
    .limit(1);
  return row ?? null;
}

const described = {
  id: entries.id,
  settingId: entries.setting,
  band: entries.band,
  invented: entries.invented,
  createdAt: entries.createdAt,
  setting: settings.label,
  configuration: configurations.id,
  kind: configurations.kind,
  title: configurationRevisions.title,
};

export type DescribedEntry = Awaited<ReturnType<typeof listDescribedEntries>>[number];

/** Entries with the words a reader knows them by: all of one configuration. */
export async function listDescribedEntries(db: Database, by: { configuration: string } | { entry: string }) {
  return db.read
    .select(described)
    .from(entries)
    .innerJoin(settings, eq(settings.id, entries.setting))
    .innerJoin(configurations, eq(configurations.id, settings.configuration))
    .innerJoin(configurationRevisions, newestWords)
    .where("entry" in by ? eq(entries.id, by.entry) : eq(configurations.id, by.configuration))
    .orderBy(settings.id, entries.band, entries.invented);
}

/** One entry with its words. @throws StoreError "not-found" */
export async function findEntry(db: Database, id: string): Promise<DescribedEntry> {
  const [row] = await listDescribedEntries(db, { entry: id });
  if (!row) throw new StoreError("not-found", `No entry ${id} is stored.`);
  return row;
}
