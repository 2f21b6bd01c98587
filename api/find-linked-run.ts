import type { FanState, Run, Ventilation } from "../analysis/trial.ts";
import type { Connection, Database } from "../db/database.ts";
import { StoreError } from "../db/store-error.ts";
import { findResult, findSeries, findTrial, listRuns } from "../db/trials.ts";
import { invalid } from "./problem.ts";
import { parseId } from "./public-id.ts";
import { unpackSeries } from "./series-blob.ts";
import type { LinkedRun } from "./trial-input.ts";
import type { AnalysisOut } from "./wire/analysis.ts";

/** What is stored beside a run's series so that it can be analysed again. */
export type RunConditions = Pick<Run, "marks" | "windows"> & {
  readonly cropFromS: number | null;
  readonly cropToS: number | null;
  readonly mixingFan: FanState;
  readonly ventilation: Ventilation;
};

/** A stored run as the analysis takes it. */
export async function findRun(connection: Connection, trial: string, revision: number, n: number): Promise<Run> {
  const stored = (await listRuns(connection, trial, revision)).find((run) => run.n === n);
  if (!stored) throw new StoreError("not-found", `Trial ${trial} has no run ${n}.`);
  const { cropFromS, cropToS, ...conditions } = JSON.parse(stored.analysisJson) as RunConditions;
  return {
    index: n,
    role: stored.role as Run["role"],
    counter: stored.counter,
    series: { ...unpackSeries(await findSeries(connection, stored.series)), cropFromS, cropToS },
    startMs: stored.startMs,
    ...conditions,
  };
}

/**
 * The natural run that `from_run` names, `trl-…/runs/0`: a natural run, or the natural phase of a full log.
 * @throws RequestError "invalid" where there is no such run or it holds no natural decay
 */
export async function findLinkedRun(db: Database, reference: string, path: readonly PropertyKey[]): Promise<LinkedRun> {
  const match = /^([^/]+)\/runs\/(\d{1,3})$/.exec(reference);
  if (!match) throw invalid(path, "Name a stored run as trl-…/runs/0.");
  const n = Number(match[2]);
  try {
    const trial = await findTrial(db.read, parseId("trial", match[1]!));
    if (trial.state === "withdrawn") throw invalid(path, `Trial ${trial.id} was withdrawn.`);
    const run = await findRun(db.read, trial.id, trial.revision, n);
    const record = JSON.parse(trial.json) as { counters: { id: string; model?: string }[] };
    return {
      trial: trial.id,
      revision: trial.revision,
      n,
      submitter: trial.submitter,
      room: trial.room,
      invented: trial.invented,
      counterModel: record.counters.find(({ id }) => id === run.counter)?.model ?? null,
      run: run.role === "natural" ? run : await naturalPhase(db, trial.id, trial.revision, run, path),
    };
  } catch (error) {
    if (error instanceof StoreError) throw invalid(path, error.message);
    throw error;
  }
}

async function naturalPhase(
  db: Database,
  trial: string,
  revision: number,
  run: Run,
  path: readonly PropertyKey[],
): Promise<Run> {
  const analysis = JSON.parse((await findResult(db.read, trial, revision)).json) as AnalysisOut;
  const phase = analysis.phases.find((found) => found.run === run.index && found.phase === "natural");
  if (run.role !== "full_log" || !phase) throw invalid(path, "That run holds no natural decay.");
  return { ...run, role: "natural", windows: [{ phase: "natural", n: 0, fromS: phase.from, toS: phase.to }] };
}
