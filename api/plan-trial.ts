import type { RoomVolume } from "../analysis/room-volume.ts";
import { canonicalJson, sha256Hex } from "../db/content-hash.ts";
import type { Connection } from "../db/database.ts";
import { countAlike } from "../db/fingerprints.ts";
import type { TrialToStore } from "../db/insert-trial.ts";
import { type Member, readEntries } from "../db/members.ts";
import { findDoubts, fingerprintsOf } from "./doubt/find-doubts.ts";
import { doubtReason } from "./doubt/rules.ts";
import type { RunConditions } from "./find-linked-run.ts";
import { makeId, type Random } from "./public-id.ts";
import { repool } from "./repool.ts";
import { chooseSetting, resolveConfiguration } from "./resolve-configuration.ts";
import { resolveRoom } from "./resolve-room.ts";
import type { Secret } from "./secret.ts";
import { packSeries } from "./series-blob.ts";
import type { Submission } from "./submission.ts";
import { linksOf, trialFigures } from "./trial-figures.ts";
import type { PreparedRun, PreparedTrial } from "./trial-input.ts";
import { measuresOf } from "./trial-measures.ts";
import { sealWords } from "./trial-record.ts";
import type { AnalysisOut } from "./wire/analysis.ts";
import type { TrialIn } from "./wire/trial.ts";

/** All that a trial's rows are made from, besides what the database holds. */
export interface TrialPlan {
  readonly submitter: string;
  readonly submission: Submission<TrialIn>;
  readonly prepared: PreparedTrial;
  /** Each run's readings and file with their hashes: made once, however often the write is tried. */
  readonly packed: readonly PackedRun[];
  readonly analyse: (volume: RoomVolume) => AnalysisOut;
  readonly methodOrdinal: number;
  readonly contentMac: Uint8Array;
  readonly idempotencyKey: string | null;
  readonly at: string;
  readonly random: Random;
  readonly secret: Secret;
}

/** Reads what a trial meets (configuration, room, entries) and makes the rows that storing it adds. */
export async function planTrial(connection: Connection, plan: TrialPlan): Promise<TrialToStore> {
  const { submitter, submission, prepared, at, random } = plan;
  const { trial, sent } = submission;
  const context = { connection, submitter, at, random, secret: plan.secret, invented: trial.invented };
  const configuration = await resolveConfiguration(
    { ...context, path: ["configuration"] },
    trial.configuration,
    sent.configuration,
  );
  const setting = chooseSetting(configuration, trial.setting, at);
  const room = await resolveRoom(context, trial.room, prepared);
  const analysis = plan.analyse(room.volume);
  const id = makeId("trial", random);
  const aerosol = trial.aerosol?.kind ?? "other";

  const { packed } = plan;
  const record = {
    schema: 1,
    trial: id,
    submitter,
    ...sent,
    interest: trial.interest,
    invented: trial.invented,
    configuration: { id: configuration.id, identity_sha256: configuration.identitySha256 },
    setting: setting.label,
    room: { ...(sent.room as object), ...room.label, id: room.id, revision: room.revision },
    counters: sent.counters,
    runs: trial.runs.map((_, i) => runRecord((sent.runs as Record<string, unknown>[])[i]!, packed[i]!)),
  };
  const { sealed, words } = await sealWords(record, random);
  const json = canonicalJson(sealed);
  const resultJson = canonicalJson(analysis);
  const figures = await trialFigures(connection, id, 1, analysis, linksOf(prepared.runs));
  const measures = measuresOf(id, 1, sent);
  const prints = printsOf(id, prepared.runs);
  const alike = { series: packed.map(({ series }) => series.sha256), hashes: prints.map(({ hash }) => hash) };
  const readAlike = { prints: alike, count: await countAlike(connection, alike) };
  const doubts = await findDoubts(connection, {
    submitter,
    analysis,
    runs: prepared.runs,
    hashes: alike.series,
  });
  const known = setting.id === null ? [] : await readEntries(connection, setting.id, trial.invented);
  const changes = figures.map(({ cadrM3PerH: _, cadrU: __, cadrDof: ___, ...figure }) => {
    const self: Member = {
      ...measures,
      ...figure,
      submitter,
      interest: trial.interest,
      aerosol,
      room: room.id,
      roomRevision: room.revision,
      volumeM3: room.volume.volumeM3.value,
      volumeU: room.volume.volumeM3.u,
    };
    const state = known.find(({ entry }) => entry.band === figure.band);
    if (state) return { created: null, state, members: [...state.members, self] };
    const created = { id: makeId("entry", random), band: figure.band, invented: trial.invented, createdAt: at };
    return { created, state: { entry: created, previous: new Map(), seq: 0 }, members: [self] };
  });

  return {
    at,
    words: [...words, ...room.words],
    newConfiguration: configuration.created,
    newSettings: setting.added ? [setting.added] : configuration.newSettings,
    newRoom: room.created,
    trial: {
      id,
      submitter,
      configuration: configuration.id,
      settingFolded: setting.folded,
      room: room.id,
      interest: trial.interest,
      aerosol,
      invented: trial.invented,
      contentMac: plan.contentMac,
      idempotencyKey: plan.idempotencyKey,
      createdAt: at,
    },
    revision: { trial: id, revision: 1, json, sha256: await sha256Hex(json), at, interest: trial.interest, aerosol },
    files: packed.flatMap(({ file }) =>
      file ? [{ sha256: file.sha256, size: file.bytes.length, bytes: file.bytes }] : [],
    ),
    series: packed.map(({ series }) => series),
    runs: prepared.runs.map((run, i) => runRow(id, run, packed[i]!)),
    result: {
      trial: id,
      revision: 1,
      methodVersion: analysis.method_version,
      methodOrdinal: plan.methodOrdinal,
      roomRevision: room.revision,
      json: resultJson,
      sha256: await sha256Hex(resultJson),
      at,
    },
    bands: figures,
    measures,
    newEntries: changes.flatMap(({ created }) => created ?? []),
    doubts: doubts.map(doubtReason),
    fingerprints: prints,
    readAlike,
    pools: await repool(connection, doubts.length > 0 ? [] : changes),
    readRoom: room.created ? null : { room: room.id, revision: room.revision },
  };
}

export type PackedRun = Awaited<ReturnType<typeof packRun>>;

/** A run's readings as they are stored, and its file, each with its hash. */
export async function packRun({ input, source }: PreparedRun) {
  const file = "read" in source && source.file ? { ...source.file, sha256: await sha256Hex(source.file.bytes) } : null;
  return { series: await packSeries(input.series), file };
}

/** Fingerprints of a trial's own readings: those of a run it names are the other trial's. */
function printsOf(trial: string, runs: readonly PreparedRun[]) {
  return runs.flatMap(({ input, source }) =>
    "link" in source ? [] : fingerprintsOf(input.series).map((hash) => ({ hash, trial, revision: 1, n: input.index })),
  );
}

/** A run in the hashed record: its readings and its file stand there by their hashes. */
function runRecord(sent: Record<string, unknown>, { series, file }: PackedRun) {
  const { series: _, file: __, ...rest } = sent;
  return {
    ...rest,
    series: { sha256: series.sha256, rows: series.rows },
    ...(file ? { file: { sha256: file.sha256, size: file.bytes.length, name: file.name } } : {}),
  };
}

function runRow(trial: string, { input, source }: PreparedRun, { series, file }: PackedRun) {
  const { marks, windows, mixingFan, ventilation } = input;
  const { cropFromS, cropToS } = input.series;
  const conditions: RunConditions = { marks, windows, cropFromS, cropToS, mixingFan, ventilation };
  const link = "link" in source ? source.link : null;
  return {
    trial,
    revision: 1,
    n: input.index,
    role: input.role,
    counter: input.counter,
    series: series.sha256,
    file: file?.sha256 ?? null,
    fromTrial: link?.trial ?? null,
    fromRevision: link?.revision ?? null,
    fromN: link?.n ?? null,
    startMs: input.startMs,
    analysisJson: canonicalJson(conditions),
  };
}
