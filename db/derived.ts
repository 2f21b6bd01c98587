import { and, eq, isNull } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Connection } from "./database.ts";
import { figureFields, ownMeasures, ownRevision } from "./members.ts";
import { settingMoves, settings } from "./schema/configurations.ts";
import { roomRevisions } from "./schema/identity.ts";
import { entries, events, methodAdoptions, pooled, spreads, standings, trialStates } from "./schema/standings.ts";
import { resultBands, results, trialMeasures, trialRevisions, trials } from "./schema/trials.ts";
import { sealed } from "./seal.ts";

/** All that states and pooled figures are made from, in the order it happened. */
export async function readHistory(connection: Connection) {
  const [happened, figures, allResults, adoptions, allEntries, rooms, moves, allSpreads] = await connection.batch([
    connection.select().from(events).orderBy(events.seq),
    connection
      .select({ ...figureFields, setting: trials.setting, invented: trials.invented })
      .from(trials)
      .innerJoin(resultBands, eq(resultBands.trial, trials.id))
      .innerJoin(trialRevisions, ownRevision)
      .leftJoin(trialMeasures, ownMeasures),
    connection
      .select({
        trial: results.trial,
        revision: results.revision,
        methodVersion: results.methodVersion,
        methodOrdinal: results.methodOrdinal,
      })
      .from(results),
    connection.select().from(methodAdoptions).orderBy(methodAdoptions.ordinal),
    connection.select().from(entries).orderBy(entries.id),
    connection.select().from(roomRevisions).orderBy(roomRevisions.room, roomRevisions.revision),
    connection
      .select({ configuration: settings.configuration, from: settingMoves.from, to: settingMoves.to })
      .from(settingMoves)
      .innerJoin(settings, eq(settings.id, settingMoves.from))
      .orderBy(settingMoves.from),
    connection.select().from(spreads).orderBy(spreads.id),
  ]);
  return {
    events: happened,
    figures,
    results: allResults,
    adoptions,
    entries: allEntries,
    rooms,
    moves,
    spreads: allSpreads,
  };
}

export type History = Awaited<ReturnType<typeof readHistory>>;

/** Trial revisions whose measures were never taken from their record: those stored before there was a table for them. */
export async function listUnmeasured(connection: Connection, limit: number) {
  return connection
    .select({ trial: trialRevisions.trial, revision: trialRevisions.revision, json: trialRevisions.json })
    .from(trialRevisions)
    .leftJoin(
      trialMeasures,
      and(eq(trialMeasures.trial, trialRevisions.trial), eq(trialMeasures.revision, trialRevisions.revision)),
    )
    .where(isNull(trialMeasures.trial))
    .limit(limit);
}

export async function insertMeasures(
  connection: Connection,
  rows: readonly (typeof trialMeasures.$inferInsert)[],
): Promise<void> {
  await connection.insert(trialMeasures).values(rows.map((row) => sealed(trialMeasures, row)));
}

type State = typeof trialStates.$inferInsert;
type PooledRow = typeof pooled.$inferInsert;

const ROWS_A_STATEMENT = 500; // 37 columns each stay under SQLite's 32 766 parameters

/** Puts derived rows in the place of all there are, in one batch; the standings follow by their trigger. */
export async function replaceDerived(
  connection: Connection,
  states: readonly State[],
  rows: readonly PooledRow[],
): Promise<void> {
  await connection.batch([
    connection.delete(standings),
    connection.delete(pooled),
    connection.delete(trialStates),
    ...slices(states).map((some): BatchItem<"sqlite"> => connection.insert(trialStates).values(some)),
    ...slices(rows).map((some): BatchItem<"sqlite"> => connection.insert(pooled).values(some)),
  ]);
}

function slices<T>(rows: readonly T[]): T[][] {
  const count = Math.ceil(rows.length / ROWS_A_STATEMENT);
  return Array.from({ length: count }, (_, i) => rows.slice(i * ROWS_A_STATEMENT, (i + 1) * ROWS_A_STATEMENT));
}
