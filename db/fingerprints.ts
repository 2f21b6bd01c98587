import { and, eq, inArray, isNotNull, isNull, notExists, type SQL, sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { fingerprints, runs, series, trials } from "./schema/trials.ts";
import { sealed } from "./seal.ts";

/** Logs of others that are looked at for one sent: who copies needs no more than one to be found. */
const MOST = 10;

/** Runs that were sent with a series, oldest first. */
export async function listBySeries(connection: Connection, hash: string) {
  return connection
    .select({ trial: runs.trial, submitter: trials.submitter })
    .from(runs)
    .innerJoin(trials, eq(trials.id, runs.trial))
    .where(and(eq(runs.series, hash), isNull(runs.fromTrial)))
    .orderBy(trials.createdAt, trials.id)
    .limit(MOST);
}

/** Series that share a fingerprint, oldest first; erased ones cannot be compared any more. */
export async function listByScatter(connection: Connection, hashes: readonly number[]) {
  if (hashes.length === 0) return [];
  const found = await connection
    .selectDistinct({
      trial: runs.trial,
      submitter: trials.submitter,
      rows: series.rows,
      channelsJson: series.channelsJson,
      bytes: series.bytes,
      createdAt: trials.createdAt,
    })
    .from(fingerprints)
    .innerJoin(
      runs,
      and(eq(runs.trial, fingerprints.trial), eq(runs.revision, fingerprints.revision), eq(runs.n, fingerprints.n)),
    )
    .innerJoin(trials, eq(trials.id, runs.trial))
    .innerJoin(series, eq(series.sha256, runs.series))
    .where(and(inArray(fingerprints.hash, [...hashes]), isNotNull(series.bytes)))
    .orderBy(trials.createdAt, runs.trial)
    .limit(MOST);
  return found.flatMap(({ bytes, ...row }) => (bytes ? [{ ...row, bytes }] : []));
}

/** The readings of a trial, by the hashes that find others like them. */
export interface Prints {
  readonly series: readonly string[];
  readonly hashes: readonly number[];
}

/** How many runs and fingerprints there are like those of a trial: a writer compares it before adding its own. */
export const alikeCount = ({ series: sent, hashes }: Prints): SQL<number> =>
  sql<number>`((SELECT count(*) FROM runs WHERE series IN ${sent}) + (SELECT count(*) FROM fingerprints WHERE hash IN ${hashes}))`;

export async function countAlike(connection: Connection, prints: Prints): Promise<number> {
  const rows = await connection.all<{ count: number }>(sql`SELECT ${alikeCount(prints)} AS count`);
  return rows[0]!.count;
}

/** Own runs of trials of which nothing was ever kept here: those stored before there was a table for it. */
export async function listUnmarked(connection: Connection) {
  const marked = connection.select({ one: sql`1` }).from(fingerprints).where(eq(fingerprints.trial, runs.trial));
  return connection
    .select({ trial: runs.trial, revision: runs.revision, n: runs.n, series: runs.series })
    .from(runs)
    .innerJoin(series, eq(series.sha256, runs.series))
    .where(and(isNull(runs.fromTrial), isNotNull(series.bytes), notExists(marked)));
}

export async function insertFingerprints(
  connection: Connection,
  rows: readonly (typeof fingerprints.$inferInsert)[],
): Promise<void> {
  if (rows.length > 0) await connection.insert(fingerprints).values(rows.map((row) => sealed(fingerprints, row)));
}
