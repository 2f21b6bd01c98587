import { and, asc, eq, inArray, sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import type { Entry } from "./entries.ts";
import { settingIdsMovedTo, settingsMovedTo } from "./moves.ts";
import { events, methodAdoptions } from "./schema/standings.ts";
import { resultBands, results, trialRevisions, trials } from "./schema/trials.ts";

export type EntryHistory = Awaited<ReturnType<typeof readEntryHistory>>;

/** All that ever decided who counts in an entry: its trials and those that merges moved to it, and what happened to them. */
export async function readEntryHistory(connection: Connection, entry: Entry) {
  const here = and(inArray(trials.setting, settingIdsMovedTo(entry.setting)), eq(trials.invented, entry.invented));
  const subjects = sql`SELECT ${trials.id} FROM ${trials} WHERE ${here} UNION SELECT ${trials.room} FROM ${trials} WHERE ${here}`;
  const [moves, candidates, figures, happened, adoptions] = await connection.batch([
    connection
      .select({ from: sql<number>`m.from_setting`, to: sql<number>`m.to_setting`, seq: events.seq })
      .from(sql`setting_moves m`)
      .innerJoin(sql`settings s`, sql`s.id = m.from_setting`)
      .innerJoin(events, sql`${events.subject} = s.configuration AND ${events.kind} = 'configuration-merged'`)
      .where(sql`m.from_setting IN (SELECT id FROM ${settingsMovedTo([entry.setting])})`),
    connection.select({ id: trials.id, setting: trials.setting, room: trials.room }).from(trials).where(here),
    connection
      .select({
        trial: results.trial,
        revision: results.revision,
        methodVersion: results.methodVersion,
        methodOrdinal: results.methodOrdinal,
        interest: trialRevisions.interest,
        /** NULL where this result has no figure in the entry's band. */
        paired: resultBands.paired,
      })
      .from(results)
      .innerJoin(trials, eq(trials.id, results.trial))
      .innerJoin(
        trialRevisions,
        and(eq(trialRevisions.trial, results.trial), eq(trialRevisions.revision, results.revision)),
      )
      .leftJoin(
        resultBands,
        and(
          eq(resultBands.trial, results.trial),
          eq(resultBands.revision, results.revision),
          eq(resultBands.methodVersion, results.methodVersion),
          sql`${resultBands.band} = ${entry.band}`,
        ),
      )
      .where(here)
      .orderBy(asc(results.methodOrdinal)),
    connection
      .select({ seq: events.seq, kind: events.kind, subject: events.subject, reason: events.reason })
      .from(events)
      .where(sql`${events.subject} IN (${subjects})`)
      .orderBy(events.seq),
    connection.select().from(methodAdoptions).orderBy(methodAdoptions.ordinal),
  ]);
  return { setting: entry.setting, moves, trials: candidates, figures, events: happened, adoptions };
}
