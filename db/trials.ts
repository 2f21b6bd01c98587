import { and, desc, eq, inArray, sql } from "drizzle-orm";
import { countedFigures, countedFirst } from "./counted-result.ts";
import type { Connection, Database } from "./database.ts";
import { configurationsMergedInto, settingIdsMovedTo } from "./moves.ts";
import { settings } from "./schema/configurations.ts";
import { trialStates } from "./schema/standings.ts";
import { files, resultBands, results, runs, series, trialRevisions, trials } from "./schema/trials.ts";
import { StoreError } from "./store-error.ts";

export type StoredTrial = typeof trials.$inferSelect & {
  readonly revision: number;
  readonly json: string;
  readonly sha256: string;
  readonly revisedAt: string;
  readonly state: "listed" | "pending" | "questioned" | "withdrawn";
};

/** Joins a trial with its newest revision. */
export const newestRevision = and(
  eq(trialRevisions.trial, trials.id),
  sql`${trialRevisions.revision} = (SELECT max(v.revision) FROM ${trialRevisions} v WHERE v.trial = ${trials.id})`,
)!;

/** A trial with its newest revision and its state. @throws StoreError "not-found" */
export async function findTrial(connection: Connection, id: string): Promise<StoredTrial> {
  const [row] = await connection
    .select({ trial: trials, revision: trialRevisions, state: trialStates.state })
    .from(trials)
    .innerJoin(trialRevisions, eq(trialRevisions.trial, trials.id))
    .innerJoin(trialStates, eq(trialStates.trial, trials.id))
    .where(eq(trials.id, id))
    .orderBy(desc(trialRevisions.revision))
    .limit(1);
  if (!row) throw new StoreError("not-found", `No trial ${id} is stored.`);
  const { trial, revision, state } = row;
  return {
    ...trial,
    interest: revision.interest,
    aerosol: revision.aerosol,
    revision: revision.revision,
    json: revision.json,
    sha256: revision.sha256,
    revisedAt: revision.at,
    state,
  };
}

/** Every revision of a trial, first to newest. */
export async function listRevisions(connection: Connection, trial: string) {
  return connection
    .select()
    .from(trialRevisions)
    .where(eq(trialRevisions.trial, trial))
    .orderBy(trialRevisions.revision);
}

/** The record of every revision of a trial. */
export async function listRecords(connection: Connection, trial: string): Promise<string[]> {
  return (await listRevisions(connection, trial)).map(({ json }) => json);
}

/** An earlier trial of the same submitter with the same content or the same Idempotency-Key. */
export async function findRepeated(
  connection: Connection,
  submitter: string,
  contentMac: Uint8Array,
  idempotencyKey: string | null,
): Promise<{ id: string; sameContent: boolean } | null> {
  const columns = { id: trials.id };
  const mine = eq(trials.submitter, submitter);
  if (idempotencyKey !== null) {
    const [row] = await connection
      .select({ id: trials.id, sameContent: sql<number>`${trials.contentMac} = ${contentMac}` })
      .from(trials)
      .where(and(mine, eq(trials.idempotencyKey, idempotencyKey)));
    if (row) return { id: row.id, sameContent: row.sameContent === 1 };
  }
  const [row] = await connection
    .select(columns)
    .from(trials)
    .where(and(mine, eq(trials.contentMac, contentMac)));
  return row ? { id: row.id, sameContent: true } : null;
}

/** The result of a trial's revision that counts. @throws StoreError "not-found" */
export async function findResult(
  connection: Connection,
  trial: string,
  revision: number,
): Promise<typeof results.$inferSelect> {
  const [row] = await connection
    .select()
    .from(results)
    .where(and(eq(results.trial, trial), eq(results.revision, revision)))
    .orderBy(countedFirst(results.methodOrdinal))
    .limit(1);
  if (!row) throw new StoreError("not-found", `No result of trial ${trial} is stored.`);
  return row;
}

/** What every method version says of a trial's revision, newest version first. */
export async function listResults(connection: Connection, trial: string, revision: number) {
  return connection
    .select()
    .from(results)
    .where(and(eq(results.trial, trial), eq(results.revision, revision)))
    .orderBy(desc(results.methodOrdinal));
}

export type StoredRun = typeof runs.$inferSelect;

/** The runs of a trial revision, in order. */
export async function listRuns(connection: Connection, trial: string, revision: number): Promise<StoredRun[]> {
  return connection
    .select()
    .from(runs)
    .where(and(eq(runs.trial, trial), eq(runs.revision, revision)))
    .orderBy(runs.n);
}

/** The parsed series of a run. @throws StoreError "gone" where it was erased */
export async function findSeries(connection: Connection, sha256: string) {
  const [row] = await connection.select().from(series).where(eq(series.sha256, sha256));
  if (!row) throw new StoreError("not-found", "No such series is stored.");
  if (!row.bytes) throw new StoreError("gone", `The series was erased on ${row.erasedAt}: ${row.erasedReason}`);
  return { ...row, bytes: row.bytes };
}

/** The bytes of an uploaded file. @throws StoreError "gone" where it was erased */
export async function findFile(db: Database, sha256: string): Promise<Uint8Array> {
  const [row] = await db.read.select().from(files).where(eq(files.sha256, sha256));
  if (!row) throw new StoreError("not-found", "No such file is stored.");
  if (!row.bytes) throw new StoreError("gone", `The file was erased on ${row.erasedAt}: ${row.erasedReason}`);
  return row.bytes;
}

/** The trials of a configuration or of one of its settings, newest first, withdrawn ones and those of merged ones included. */
export async function listTrialsOf(
  db: Database,
  of: { configuration: string } | { setting: number; invented: boolean },
) {
  return db.read
    .select({
      id: trials.id,
      setting: settings.label,
      state: trialStates.state,
      room: trials.room,
      interest: trialRevisions.interest,
      aerosol: trialRevisions.aerosol,
      invented: trials.invented,
      created_at: trials.createdAt,
    })
    .from(trials)
    .innerJoin(trialRevisions, newestRevision)
    .innerJoin(trialStates, eq(trialStates.trial, trials.id))
    .innerJoin(settings, eq(settings.id, trials.setting))
    .where(
      "setting" in of
        ? and(inArray(trials.setting, settingIdsMovedTo(of.setting)), eq(trials.invented, of.invented))
        : inArray(trials.configuration, configurationsMergedInto(of.configuration)),
    )
    .orderBy(desc(trials.createdAt), trials.id);
}

/** The run a run was first logged as: a natural run may be taken from a trial that took it itself. */
export async function findRunOrigin(
  connection: Connection,
  run: { readonly trial: string; readonly revision: number; readonly n: number },
): Promise<{ trial: string; revision: number; n: number }> {
  let at = run;
  for (;;) {
    const [row] = await connection
      .select({ trial: runs.fromTrial, revision: runs.fromRevision, n: runs.fromN })
      .from(runs)
      .where(and(eq(runs.trial, at.trial), eq(runs.revision, at.revision), eq(runs.n, at.n)));
    if (!row || row.trial === null || row.revision === null || row.n === null) return at;
    at = { trial: row.trial, revision: row.revision, n: row.n };
  }
}

/** The figures of a band that count, by trial, of all trials of a setting. */
export async function findBandFigures(db: Database, setting: number, band: string) {
  const rows = await db.read
    .select({ figures: resultBands })
    .from(resultBands)
    .innerJoin(trials, countedFigures)
    .where(and(inArray(trials.setting, settingIdsMovedTo(setting)), eq(resultBands.band, band)));
  return new Map(rows.map(({ figures }) => [figures.trial, figures]));
}
