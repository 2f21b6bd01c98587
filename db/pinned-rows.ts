import { and, eq, inArray, sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import type { Basis } from "./entries.ts";
import { configurationRevisions, configurations, settings } from "./schema/configurations.ts";
import { entries, events, pooled, spreads } from "./schema/standings.ts";
import { results, trialRevisions, trials } from "./schema/trials.ts";

/** What one method version says of one revision of a trial, with the trial; null where there is no such result. */
export async function findPinnedResult(connection: Connection, trial: string, revision: number, methodVersion: string) {
  const [row] = await connection
    .select({ trial: trials, revision: trialRevisions, result: results })
    .from(results)
    .innerJoin(trials, eq(trials.id, results.trial))
    .innerJoin(
      trialRevisions,
      and(eq(trialRevisions.trial, results.trial), eq(trialRevisions.revision, results.revision)),
    )
    .where(and(eq(results.trial, trial), eq(results.revision, revision), eq(results.methodVersion, methodVersion)));
  return row ?? null;
}

/** The event that brought a trial's revision: storing it for the first, then its amendments in order. */
export async function findRevisionEvent(connection: Connection, trial: string, revision: number): Promise<number> {
  const rows = await connection
    .select({ seq: events.seq })
    .from(events)
    .where(and(eq(events.subject, trial), inArray(events.kind, ["trial-stored", "trial-amended"])))
    .orderBy(events.seq);
  return rows[revision - 1]!.seq; // each revision is written with its event
}

/** One pooled row of an entry, with what it is of; null where that event made none. */
export async function findPinnedPooled(connection: Connection, entry: string, basis: Basis, seq: number) {
  const [row] = await connection
    .select({ pooled, entry: entries, setting: settings, spread: spreads, at: events.at })
    .from(pooled)
    .innerJoin(entries, eq(entries.id, pooled.entry))
    .innerJoin(settings, eq(settings.id, entries.setting))
    .innerJoin(spreads, eq(spreads.id, pooled.spread))
    .innerJoin(events, eq(events.seq, pooled.seq))
    .where(and(eq(pooled.entry, entry), eq(pooled.basis, basis), eq(pooled.seq, seq)));
  return row ?? null;
}

/** A configuration by the words it had at an event: each of its revisions after the first has an event of its own. */
export async function findWordsAt(connection: Connection, configuration: string, seq: number) {
  const [row] = await connection
    .select({
      id: configurations.id,
      kind: configurations.kind,
      title: configurationRevisions.title,
      revision: configurationRevisions.revision,
    })
    .from(configurations)
    .innerJoin(configurationRevisions, eq(configurationRevisions.configuration, configurations.id))
    .where(
      and(
        eq(configurations.id, configuration),
        sql`${configurationRevisions.revision} = 1 + (SELECT count(*) FROM events WHERE subject = ${configuration} AND kind = 'configuration-revised' AND seq <= ${seq})`,
      ),
    );
  return row!; // the first revision comes with the configuration, before any figure of it
}

/** The last withdrawal of each of these trials that was withdrawn, which is for good. */
export async function listWithdrawals(connection: Connection, ids: readonly string[]) {
  if (ids.length === 0) return [];
  return connection
    .select({ trial: events.subject, at: events.at, reason: events.reason })
    .from(events)
    .where(and(inArray(events.subject, [...ids]), eq(events.kind, "trial-withdrawn")))
    .orderBy(events.seq);
}
