import { toRunSeconds } from "../analysis/reading/time-to-seconds.ts";
import { givenVolume, type RoomVolume, rectangularVolume } from "../analysis/room-volume.ts";
import type { Counter, Run, Series, Trial } from "../analysis/trial.ts";
import { HOW_TO_STAY_UNDER, MAX_FITS, MAX_FITTED, MAX_VALUES, type UploadedFile } from "./body.ts";
import { flowAsSent, type StatedFlows } from "./flow-as-sent.ts";
import { invalid, RequestError } from "./problem.ts";
import { pointed, type ReadRun, readFileRun, readSeriesRun } from "./read-run.ts";
import { trialSeed } from "./trial-seed.ts";
import type { AnalysisIn, CounterIn, RoomIn, RunIn } from "./wire/trial.ts";

/** A natural run of another trial, as `from_run` names it. */
export interface LinkedRun {
  readonly trial: string;
  readonly revision: number;
  readonly n: number;
  readonly submitter: string;
  readonly room: string;
  readonly invented: boolean;
  readonly counterModel: string | null;
  readonly run: Run;
}

/** One run on its way in: what the analysis gets, and where it came from. */
export interface PreparedRun {
  readonly input: Run;
  readonly source: { readonly read: ReadRun; readonly file: UploadedFile | null } | { readonly link: LinkedRun };
}

export interface PreparedTrial {
  readonly input: Trial;
  readonly volume: RoomVolume;
  readonly runs: readonly PreparedRun[];
}

/** What of a trial its analysis reads. */
export interface SentTrial extends Pick<AnalysisIn, "room" | "counters" | "runs" | "performed_at" | "setting"> {
  readonly configuration?: string | StatedFlows | undefined;
}
type FindLink = (reference: string, path: readonly PropertyKey[]) => Promise<LinkedRun>;

/**
 * Reads every run of a trial and makes the analysis's input of it.
 * @throws RequestError "invalid" with a pointer, "too-large" over the limit of values
 */
export async function prepareTrial(
  trial: SentTrial,
  files: ReadonlyMap<string, UploadedFile>,
  findLink: FindLink,
): Promise<PreparedTrial> {
  const volume = roomVolume(trial.room, ["room"]);
  const counters = (trial.counters ?? [{ id: "c1", principle: "other" as const }]).map(toCounter);
  counters.forEach(({ id }, i) => {
    if (counters.findIndex((other) => other.id === id) < i) {
      throw invalid(["counters", i, "id"], `Two counters are named ${JSON.stringify(id)}.`);
    }
  });
  const runs: PreparedRun[] = [];
  let values = 0;
  for (const [index, run] of trial.runs.entries()) {
    const prepared = await prepareRun(index, run, trial, counters, files, findLink);
    values += countValues(prepared.input.series);
    if (values > MAX_VALUES) {
      throw new RequestError(
        "too-large",
        `A request may hold ${MAX_VALUES} values, time and all channels. ${HOW_TO_STAY_UNDER}`,
      );
    }
    runs.push(prepared);
  }
  checkFilesUsed(trial.runs, files);
  checkWork(runs.map(({ input }) => input));
  const { ventilation, mixing_fan: mixingFan } = trial.room;
  const input = {
    room: { volumeM3: volume.volumeM3, ventilation, mixingFan },
    counters,
    runs: runs.map((run) => run.input),
  };
  // Of a configuration named by id the flow is known only where the database is read.
  const { configuration, setting } = trial;
  const statedFlowM3PerH = typeof configuration === "object" ? flowAsSent(configuration, setting) : null;
  return { input: { ...input, statedFlowM3PerH, seed: await trialSeed(input) }, volume, runs };
}

/** Air volume of a room as sent, given or from its sides. @throws RequestError "invalid" where nothing is left of it */
export function roomVolume(
  room: Pick<RoomIn, "volume" | "length" | "width" | "height" | "displaced_volume">,
  path: readonly PropertyKey[] = [],
): RoomVolume {
  if (room.volume) return givenVolume(room.volume);
  const found = rectangularVolume([room.length!, room.width!, room.height!], room.displaced_volume ?? null);
  if (!(found.volumeM3.value > 0))
    throw invalid([...path, "displaced_volume"], "More volume is displaced than the room has.");
  return found;
}

async function prepareRun(
  index: number,
  run: RunIn,
  trial: SentTrial,
  counters: readonly Counter[],
  files: ReadonlyMap<string, UploadedFile>,
  findLink: FindLink,
): Promise<PreparedRun> {
  const path = ["runs", index] as const;
  const counter = run.counter ?? (counters.length === 1 ? counters[0]!.id : undefined);
  if (counter === undefined || !counters.some(({ id }) => id === counter)) {
    throw invalid([...path, "counter"], `Name one of the counters: ${counters.map(({ id }) => id).join(", ")}.`);
  }
  if (run.from_run !== undefined) {
    const link = await findLink(run.from_run, [...path, "from_run"]);
    return { input: { ...link.run, index, role: "natural", counter }, source: { link } };
  }
  const file = run.file === undefined ? null : (files.get(run.file) ?? null);
  if (run.file !== undefined && !file)
    throw invalid([...path, "file"], `No file part is named ${JSON.stringify(run.file)}.`);
  const read = file
    ? readFileRun(file, run.columns, [...path, "file"])
    : readSeriesRun(run.series!, [...path, "series"]);
  checkReadings(read.series, (i) => (file ? [...path, "file"] : [...path, "series", "channels", i, "values"]));
  const seconds = (t: number | string, ...at: PropertyKey[]) =>
    pointed([...path, ...at], () => toRunSeconds(t, read.scale));
  const crop = (end: "from" | "to") => {
    const inSeries = run.series?.[end];
    if (inSeries !== undefined) return seconds(inSeries, "series", end);
    const inRun = run[end];
    return inRun === undefined ? null : seconds(inRun, end);
  };
  const stamped = run.performed_at ?? trial.performed_at;
  const input: Run = {
    index,
    role: run.role,
    counter,
    series: {
      ...read.series,
      cropFromS: crop("from"),
      cropToS: crop("to"),
    },
    startMs: read.startMs ?? (stamped === undefined ? null : Date.parse(stamped)),
    mixingFan: run.mixing_fan ?? trial.room.mixing_fan,
    ventilation: run.ventilation ?? trial.room.ventilation,
    marks: run.marks.map(({ event, t }, i) => ({ event, tS: seconds(t, "marks", i, "t") })),
    windows: run.windows.map(({ phase, n, from: fromT, to: toT }, i) => {
      const fromS = seconds(fromT, "windows", i, "from");
      const toS = seconds(toT, "windows", i, "to");
      if (!(toS > fromS)) throw invalid([...path, "windows", i, "to"], "A window must end after it begins.");
      return { phase, n: n ?? 0, fromS, toS };
    }),
  };
  return { input, source: { read, file } };
}

/**
 * Each window of each channel is a fit of its own, of the readings inside it: windows that overlap multiply the work that
 * the limit of values bounds. @throws RequestError "too-large"
 */
export function checkWork(runs: readonly Pick<Run, "series" | "windows">[]): void {
  let fits = 0;
  let fitted = 0;
  for (const { series, windows } of runs) {
    const channels = series.channels.length;
    fits += channels * Math.max(1, windows.length);
    for (const { fromS, toS } of windows) fitted += channels * series.tS.filter((t) => t >= fromS && t <= toS).length;
  }
  if (fits <= MAX_FITS && fitted <= MAX_FITTED) return;
  throw new RequestError(
    "too-large",
    `The windows of a request may ask for ${MAX_FITS} fits, one a channel, of ${MAX_FITTED} readings in all; these ask for ${fits} of ${fitted}. Name fewer windows or channels, or send the runs as separate trials.`,
  );
}

/** @throws RequestError "invalid" where a reading is beyond what any counter reports and doubles can be computed with */
function checkReadings(
  { channels }: Pick<Series, "channels">,
  path: (channel: number) => readonly PropertyKey[],
): void {
  for (const [i, { id, values }] of channels.entries()) {
    const beyond = values.find((value) => Math.abs(value) > MOST_READING);
    if (beyond === undefined) continue;
    throw invalid(path(i), `Channel ${JSON.stringify(id)} holds a reading beyond ±${MOST_READING}.`);
  }
}

const MOST_READING = 1e30; // its fourth power is still a double

/** Time and all channels, nulls included. */
function countValues(series: Series): number {
  return series.tS.length * (1 + series.channels.length);
}

export function toCounter(counter: CounterIn): Counter {
  const flowM3PerH = counter.sample_flow?.value;
  return {
    id: counter.id,
    principle: counter.principle,
    model: counter.model ?? null,
    sampleFlowCm3PerS: flowM3PerH === undefined ? null : (flowM3PerH * 1e6) / 3600,
    deadTimeS: counter.dead_time?.value ?? null,
    maxConcentrationPerCm3: counter.max_concentration?.value ?? null,
    smoothing: counter.smoothing ? { kind: counter.smoothing.kind, timeS: counter.smoothing.time.value } : null,
  };
}

/** A file that no run names would be dropped in silence: most likely its name is misspelt. */
function checkFilesUsed(runs: readonly RunIn[], files: ReadonlyMap<string, UploadedFile>): void {
  const named = new Set(runs.map(({ file }) => file));
  for (const name of files.keys()) {
    if (name !== "trial" && !named.has(name))
      throw invalid([name], `No run uses the file part ${JSON.stringify(name)}.`);
  }
}
