import { and, desc, eq, getTableColumns, lt, type SQL, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Connection, Database } from "./database.ts";
import { events } from "./schema/standings.ts";
import { sealed } from "./seal.ts";

/** One line of the log of everything that happened. */
export function event(connection: Connection, row: Omit<typeof events.$inferInsert, "seq">): BatchItem<"sqlite"> {
  return connection.insert(events).values(sealed(events, row));
}

/** Aborts the batch unless the condition holds: the compare half of compare-and-swap. */
export function expectation(connection: Connection, holds: SQL, what: string): BatchItem<"sqlite"> {
  return connection.run(sql`INSERT INTO expectations (holds, what) VALUES (${holds}, ${what})`);
}

/** The seq of the newest event about a subject, as it stands inside the batch. */
export const newestSeqOf = (subject: string): SQL<number> =>
  sql<number>`(SELECT max(seq) FROM events WHERE subject = ${subject})`;

/** That nobody corrected the room's volume since. */
export const expectedRoomRevision = (room: string, revision: number): SQL =>
  sql`(SELECT max(revision) FROM room_revisions WHERE room = ${room}) = ${revision}`;

/** That the configuration was not merged into another since. */
export const expectedUnmerged = (configuration: string): SQL =>
  sql`NOT EXISTS (SELECT 1 FROM merges WHERE configuration = ${configuration})`;

/** That no merge moved the setting's trials elsewhere since. */
export const expectedUnmoved = (setting: number): SQL =>
  sql`NOT EXISTS (SELECT 1 FROM setting_moves WHERE from_setting = ${setting})`;

/** That nobody pooled the entry since. */
export const expectedPooledSeq = (entry: string, seq: number): SQL =>
  sql`(SELECT coalesce(max(seq), 0) FROM pooled WHERE entry = ${entry} AND basis = 'all') = ${seq}`;

/** That no other spread was learnt since: whoever pools with an old one starts over. */
export const expectedSpread = (id: number): SQL => sql`(SELECT max(id) FROM spreads) = ${id}`;

/** A page of all that happened, newest first: those before `before`, about `subject` alone where one is named. */
export async function listNewest(
  connection: Connection,
  { before, subject, limit }: { before?: number | undefined; subject?: string | undefined; limit: number },
) {
  const { rowSha256: _, ...columns } = getTableColumns(events);
  return connection
    .select(columns)
    .from(events)
    .where(
      and(
        before === undefined ? undefined : lt(events.seq, before),
        subject === undefined ? undefined : eq(events.subject, subject),
      ),
    )
    .orderBy(desc(events.seq))
    .limit(limit);
}

/** That no other method version was adopted since: whoever read what counted under an old one starts over. */
export const expectedAdoption = (ordinal: number): SQL => sql`(SELECT max(ordinal) FROM method_adoptions) = ${ordinal}`;

/** What happened to a subject, oldest first. */
export async function listEvents(db: Database, subject: string) {
  return db.read.select().from(events).where(eq(events.subject, subject)).orderBy(events.seq);
}
