import { eq } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Connection } from "./database.ts";
import { type Member, newestVolume } from "./entries.ts";
import { roomRevisions } from "./schema/identity.ts";
import { entries, events, pooled, standings, trialStates } from "./schema/standings.ts";
import { resultBands, trials } from "./schema/trials.ts";

/** A trial's figures in one band, with what decides which entry it is a member of. */
export type StoredFigure = Member & {
  readonly setting: number;
  readonly invented: boolean;
  readonly band: string;
  readonly methodVersion: string;
};

/** All that the derived tables are made from, in the order it happened. */
export async function readHistory(connection: Connection) {
  const [happened, figures, allEntries] = await Promise.all([
    connection.select().from(events).orderBy(events.seq),
    connection
      .select({
        trial: trials.id,
        revision: resultBands.revision,
        methodVersion: resultBands.methodVersion,
        band: resultBands.band,
        setting: trials.setting,
        invented: trials.invented,
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
      .from(resultBands)
      .innerJoin(trials, eq(trials.id, resultBands.trial))
      .innerJoin(roomRevisions, newestVolume),
    connection.select().from(entries),
  ]);
  return { events: happened, figures, entries: allEntries };
}

type State = typeof trialStates.$inferInsert;
type PooledRow = typeof pooled.$inferInsert;

const ROWS_A_STATEMENT = 500; // 16 columns each stay under SQLite's 32 766 parameters

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
