import { findConfiguration } from "../db/configurations.ts";
import type { Database } from "../db/database.ts";
import { listEvents } from "../db/events.ts";
import { findSpread } from "../db/spreads.ts";
import { findHandle } from "../db/submitters.ts";
import { findResult, findTrial, listRuns, type StoredTrial } from "../db/trials.ts";
import { listWords } from "../db/words.ts";
import { digestsIn, unsealWords } from "./trial-record.ts";
import type { AnalysisOut } from "./wire/analysis.ts";
import { withExpectation } from "./write-analysis.ts";
import { writeNoise } from "./write-noise.ts";

/** The part of a trial's record that pages show; what else was sent stands beside it. */
interface OpenRecord {
  readonly setting: string;
  readonly performed_at: string;
  readonly interest: StoredTrial["interest"];
  readonly room: { readonly label?: string | null; readonly ventilation?: string; readonly mixing_fan?: string };
  readonly aerosol?: { readonly kind: string; readonly note?: string | null };
  readonly counters: readonly {
    readonly id: string;
    readonly principle?: string;
    readonly model?: string;
    readonly position?: string | null;
  }[];
  readonly filter_state?: { readonly hours?: number; readonly condition?: string };
  readonly trials_made?: number;
  readonly specimen?: string | null;
  readonly note?: string | null;
}

export type TrialView = Awaited<ReturnType<typeof viewTrial>>;

/** A trial as readers see it: the record with its words, its state, its result and its history. */
export async function viewTrial(db: Database, publicUrl: string, id: string) {
  const trial = await findTrial(db.read, id);
  const record = JSON.parse(trial.json) as Record<string, unknown>;
  const [words, configuration, handle, history, result, runs, spread] = await Promise.all([
    listWords(db, digestsIn(record)),
    findConfiguration(db.read, trial.configuration),
    findHandle(db, trial.submitter),
    listEvents(db, id),
    findResult(db.read, id, trial.revision),
    listRuns(db.read, id, trial.revision),
    findSpread(db.read),
  ]);
  const {
    schema: _,
    trial: __,
    submitter: ___,
    invented: ____,
    configuration: _____,
    ...open
  } = unsealWords(record, words);
  const url = `${publicUrl}/v1/trials/${id}`;
  return {
    id,
    url,
    page: `${publicUrl}/trials/${id}`,
    state: trial.state,
    ...(trial.state === "withdrawn" ? { withdrawn: withdrawal(history) } : {}),
    invented: trial.invented,
    revision: trial.revision,
    sha256: trial.sha256,
    created_at: trial.createdAt,
    submitter: { id: trial.submitter, handle },
    configuration: {
      id: configuration.id,
      title: configuration.title,
      kind: configuration.kind,
      url: `${publicUrl}/v1/configurations/${configuration.id}`,
    },
    ...(open as unknown as OpenRecord),
    runs: (open.runs as Record<string, unknown>[]).map((run, n) => ({
      n,
      ...run,
      invented: trial.invented,
      series_url: `${url}/runs/${n}/series.csv`,
      ...(runs[n]?.file ? { file_url: `${url}/runs/${n}/file` } : {}),
    })),
    noise_results: writeNoise(open.noise),
    analysis: withExpectation(JSON.parse(result.json) as AnalysisOut, spread),
    history: history.map(({ at, kind, actor, reason }) => ({ at, kind, actor, reason })),
  };
}

function withdrawal(history: Awaited<ReturnType<typeof listEvents>>) {
  const event = history.findLast(({ kind }) => kind === "trial-withdrawn");
  return event ? { at: event.at, reason: event.reason, by: event.actor } : null;
}
