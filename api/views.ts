import { findConfiguration } from "../db/configurations.ts";
import type { Database } from "../db/database.ts";
import { listDescribedEntries } from "../db/entries.ts";
import { listEvents } from "../db/events.ts";
import { findMovedSetting } from "../db/moves.ts";
import { listQuestions } from "../db/questions.ts";
import { listRoomRevisions } from "../db/rooms.ts";
import { findSpread } from "../db/spreads.ts";
import { findHandle } from "../db/submitters.ts";
import { findResult, findTrial, listResults, listRuns, type StoredTrial } from "../db/trials.ts";
import { listWords } from "../db/words.ts";
import { readDoubt } from "./doubt/rules.ts";
import { digestsIn, unsealWords } from "./trial-record.ts";
import { viewRevisions } from "./view-revisions.ts";
import type { AnalysisOut } from "./wire/analysis.ts";
import { withExpectation } from "./write-analysis.ts";
import { writeNoise } from "./write-noise.ts";

/** A quantity as it was sent. */
export interface Sent {
  readonly value: number;
  readonly unit: string;
  readonly u?: number;
}

/** The part of a trial's record that pages show; what else was sent stands beside it. A personal word that was erased is null. */
interface OpenRecord {
  readonly setting: string;
  readonly performed_at: string;
  readonly interest: StoredTrial["interest"];
  readonly room: {
    readonly id: string;
    readonly label?: string | null;
    readonly ventilation?: string;
    readonly mixing_fan?: string;
    readonly volume?: Sent;
    readonly length?: Sent;
    readonly width?: Sent;
    readonly height?: Sent;
    readonly displaced_volume?: Sent;
    readonly temperature?: Sent;
    readonly relative_humidity?: Sent;
  };
  readonly aerosol?: { readonly kind: string; readonly note?: string | null };
  readonly counters: readonly {
    /** c1 where none was sent. */
    readonly id?: string;
    readonly principle?: string;
    readonly model?: string;
    readonly position?: string | null;
    readonly sample_flow?: Sent;
    readonly dead_time?: Sent;
    readonly max_concentration?: Sent;
    readonly smoothing?: { readonly kind: string; readonly time: Sent };
  }[];
  readonly filter_state?: { readonly hours?: number; readonly condition?: string };
  readonly noise?: readonly {
    readonly quantity: "L_pA" | "L_WA";
    readonly level: Sent;
    readonly background?: Sent;
    readonly distance?: Sent;
    readonly meter: string;
  }[];
  readonly power?: Sent;
  readonly trials_made?: number;
  readonly specimen?: string | null;
  readonly note?: string | null;
}

/** A run as its record has it, with where its readings are. */
export interface RunView {
  readonly n: number;
  readonly role: "background" | "natural" | "total" | "full_log";
  readonly counter: string;
  readonly performed_at?: string;
  readonly mixing_fan?: string;
  readonly ventilation?: string;
  readonly from_run?: string;
  readonly file?: { readonly name: string | null; readonly size: number; readonly sha256: string };
  readonly series?: { readonly rows: number; readonly sha256: string };
  readonly series_url: string;
  readonly file_url?: string;
}

export type TrialView = Awaited<ReturnType<typeof viewTrial>>;

/** A trial as readers see it: the record with its words, its state, its result and its history. */
export async function viewTrial(db: Database, publicUrl: string, id: string) {
  const trial = await findTrial(db.read, id);
  const record = JSON.parse(trial.json) as Record<string, unknown>;
  const [
    words,
    configuration,
    handle,
    history,
    result,
    allResults,
    runs,
    spread,
    volumes,
    roomHistory,
    questions,
    revisions,
  ] = await Promise.all([
    listWords(db, digestsIn(record)),
    findConfiguration(db.read, trial.configuration),
    findHandle(db, trial.submitter),
    listEvents(db, id),
    findResult(db.read, id, trial.revision),
    listResults(db.read, id, trial.revision),
    listRuns(db.read, id, trial.revision),
    findSpread(db.read),
    listRoomRevisions(db.read, trial.room),
    listEvents(db, trial.room),
    listQuestions(db.read, id),
    viewRevisions(db.read, publicUrl, id),
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
  const analysis = withExpectation(JSON.parse(result.json) as AnalysisOut, spread);
  const bands = analysis.results.map(({ band }) => band.name);
  const entries = (await listEntriesOf(db, trial)).filter(({ band }) => bands.includes(band));
  return {
    id,
    url,
    page: `${publicUrl}/trials/${id}`,
    state: trial.state,
    ...(trial.state === "withdrawn" ? { withdrawn: withdrawal(history) } : {}),
    doubts: history.flatMap(({ kind, reason }) => (kind === "trial-doubted" ? (readDoubt(reason) ?? []) : [])),
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
    runs: (open.runs as Omit<RunView, "n" | "series_url">[]).map((run, n) => ({
      n,
      ...run,
      counter: run.counter ?? runs[n]!.counter,
      invented: trial.invented,
      series_url: `${url}/runs/${n}/series.csv`,
      ...(runs[n]?.file ? { file_url: `${url}/runs/${n}/file` } : {}),
    })),
    entries: entries.map((entry) => ({ ...entry, url: `${publicUrl}/v1/entries/${entry.id}` })),
    room_corrections: corrections(volumes, roomHistory).filter(({ revision }) => revision > result.roomRevision),
    noise_results: writeNoise(open.noise),
    analysis,
    analysed_at: result.at,
    other_methods: allResults.filter(({ methodVersion }) => methodVersion !== result.methodVersion).map(otherMethod),
    questions,
    revisions,
    history: history.map(({ at, kind, actor, reason }) => ({ at, kind, actor, reason })),
  };
}

/** What a version that does not count says, newer or older. */
function otherMethod({ methodVersion, at, json }: Awaited<ReturnType<typeof listResults>>[number]) {
  const { results } = JSON.parse(json) as AnalysisOut;
  return { method_version: methodVersion, at, results: results.map(({ band, cadr }) => ({ band, cadr })) };
}

function withdrawal(history: Awaited<ReturnType<typeof listEvents>>) {
  const event = history.findLast(({ kind }) => kind === "trial-withdrawn");
  return event ? { at: event.at, reason: event.reason, by: event.actor } : null;
}

/** The entries that a trial counts in, one a band, wherever merges moved its setting. */
async function listEntriesOf(db: Database, trial: StoredTrial): Promise<{ id: string; band: string }[]> {
  const setting = await findMovedSetting(db.read, trial.setting);
  let configuration = await findConfiguration(db.read, trial.configuration);
  while (configuration.mergedInto !== null) configuration = await findConfiguration(db.read, configuration.mergedInto);
  const all = await listDescribedEntries(db, { configuration: configuration.id });
  return all
    .filter(({ settingId, invented }) => settingId === setting && invented === trial.invented)
    .map(({ id, band }) => ({ id, band }));
}

/** What a room's volume was corrected to, and why: each correction added a revision after the first. */
function corrections(
  volumes: Awaited<ReturnType<typeof listRoomRevisions>>,
  history: Awaited<ReturnType<typeof listEvents>>,
) {
  const reasons = history.filter(({ kind }) => kind === "room-corrected").map(({ reason }) => reason);
  return volumes.slice(1).map(({ revision, volumeM3, volumeU, basis, at }, i) => {
    return { revision, value: volumeM3, unit: "m3", u: volumeU, basis, at, reason: reasons[i] ?? null };
  });
}
