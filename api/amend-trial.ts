import { METHOD } from "../analysis/method.ts";
import { findAdoption } from "../db/adoptions.ts";
import { canonicalJson, sha256Hex } from "../db/content-hash.ts";
import type { Connection } from "../db/database.ts";
import { insertAmendment } from "../db/insert-amendment.ts";
import { findNamedSetting } from "../db/insert-reanalysis.ts";
import { findMemberOrigin, readEntries } from "../db/members.ts";
import { findMovedSetting } from "../db/moves.ts";
import { StoreError } from "../db/store-error.ts";
import { findResult, findTrial, listRuns, type StoredTrial } from "../db/trials.ts";
import { listWords } from "../db/words.ts";
import { amendedRecord, amendedRun, retimedRuns, timedRun } from "./amended-record.ts";
import { doubtedResults } from "./doubt/find-doubts.ts";
import { doubtReason } from "./doubt/rules.ts";
import type { Dependencies } from "./environment.ts";
import type { RunConditions } from "./find-linked-run.ts";
import { findTrialInput } from "./find-trial-input.ts";
import { makeId } from "./public-id.ts";
import { repool } from "./repool.ts";
import { requireResult } from "./require-result.ts";
import { retrying } from "./store-trial.ts";
import { trialFigures } from "./trial-figures.ts";
import { checkWork, toCounter } from "./trial-input.ts";
import { measuresOf } from "./trial-measures.ts";
import { digestsIn, sealWords, unsealWords } from "./trial-record.ts";
import { trialSeed } from "./trial-seed.ts";
import type { AmendmentIn } from "./wire/amendment.ts";
import type { AnalysisOut } from "./wire/analysis.ts";
import { AirConditions, CounterIn } from "./wire/trial.ts";
import { withFigures } from "./with-figures.ts";
import { writeAnalysis } from "./write-analysis.ts";

/** The very same content is the same trial, whose answer is that it was withdrawn. */
export const HOW_ANEW = "To store the test anew, send it with whatever was wrong put right.";

interface Amending {
  readonly id: string;
  readonly actor: string;
  readonly amendment: AmendmentIn;
  /** The same as it came. */
  readonly sent: Readonly<Record<string, unknown>>;
}

/**
 * Adds another revision of a trial: the earlier one stays with its result, and the new figures count in its place. Where a
 * stated rule doubts them that did not doubt the earlier ones, the trial waits for a person.
 * @returns whether anything changed
 * @throws StoreError "withdrawn"; RequestError "no-result" where the amended test has no clean air delivery rate
 */
export async function amendTrial(deps: Dependencies, amending: Amending): Promise<boolean> {
  const { db } = deps;
  return retrying(async () => {
    const trial = await findTrial(db.read, amending.id);
    if (trial.state === "withdrawn") {
      throw new StoreError("withdrawn", `${trial.id} was withdrawn, which is for good. ${HOW_ANEW}`);
    }
    const prepared = await prepare(deps, trial, amending);
    if (prepared === null) return false;
    await db.write((connection) => write(deps, connection, trial, amending, prepared));
    return true;
  });
}

type Prepared = NonNullable<Awaited<ReturnType<typeof prepare>>>;

/** The record and the analysis of the amended test; null where it says what it said before. */
async function prepare({ db, random, method = METHOD }: Dependencies, trial: StoredTrial, it: Amending) {
  const before = JSON.parse(trial.json) as Parameters<typeof amendedRecord>[0];
  const said = amendedRecord(before, it.amendment, it.sent);
  const known = await findTrialInput(db.read, trial.id);
  const runs = known.input.runs.map((run) => amendedRun(run, said, it.amendment));
  const retimed = retimedRuns(it.amendment);
  const changed = { ...said, runs: said.runs.map((run, n) => (retimed.has(n) ? timedRun(run, runs[n]!) : run)) };
  const open = await listWords(db, digestsIn(before));
  if (canonicalJson(unsealWords(changed, open)) === canonicalJson(unsealWords(before, open))) return null;
  checkWork(runs);
  const amends = { revision: trial.revision, sha256: trial.sha256 };
  const { sealed: record, words } = await sealWords({ ...changed, amends }, random);
  const { ventilation, mixing_fan: mixingFan } = AirConditions.parse(changed.room);
  const counters = changed.counters?.map(({ position: _, ...counter }) => toCounter(CounterIn.parse(counter)));
  const input = {
    room: { ...known.input.room, ventilation, mixingFan },
    counters: counters ?? known.input.counters,
    runs,
  };
  const analysed = method.analyse({ ...known.input, ...input, seed: await trialSeed(input) });
  const analysis = writeAnalysis(
    analysed,
    runs.map((run) => ({ input: run })),
    known.volume,
  );
  requireResult(analysis);
  const earlier = JSON.parse((await findResult(db.read, trial.id, trial.revision)).json) as AnalysisOut;
  const doubts = doubtedResults(analysis).difference(doubtedResults(earlier));
  const { roomRevision } = known;
  return { record, words, runs, analysis, doubts: [...doubts], roomRevision, ordinal: method.ordinal };
}

async function write(
  { now, random }: Dependencies,
  connection: Connection,
  trial: StoredTrial,
  { actor, amendment }: Amending,
  { record, words, runs, analysis, doubts, roomRevision, ordinal }: Prepared,
): Promise<void> {
  const { id, invented, state } = trial;
  const revision = trial.revision + 1;
  const at = now().toISOString();
  const [json, resultJson] = [canonicalJson(record), canonicalJson(analysis)];
  const interest = amendment.interest ?? trial.interest;
  const aerosol = amendment.aerosol === undefined ? trial.aerosol : (amendment.aerosol?.kind ?? "other");
  const setting = await findMovedSetting(connection, trial.setting);
  const entries = await readEntries(connection, setting, invented);
  const adoption = await findAdoption(connection);
  const stored = await listRuns(connection, id, trial.revision);
  const links = new Map(
    stored.flatMap(({ n, fromTrial, fromRevision, fromN }) =>
      fromTrial === null || fromRevision === null || fromN === null
        ? []
        : [[n, { trial: fromTrial, revision: fromRevision, n: fromN }] as const],
    ),
  );
  const bands = await trialFigures(connection, id, revision, analysis, links);
  const newEntries = bands
    .filter(({ band }) => !entries.some(({ entry }) => entry.band === band))
    .map(({ band }) => ({ id: makeId("entry", random), band, setting, invented, createdAt: at }));
  const created = newEntries.map((entry) => ({ entry, previous: new Map(), seq: 0, members: [] }));
  const measures = measuresOf(id, revision, record);
  const { trial: _, revision: __, ...measured } = measures;
  const origin = { ...(await findMemberOrigin(connection, id, trial.revision)), ...measured, interest, aerosol };
  const counts = state === "listed" || state === "questioned";
  const counting = doubts.length > 0 ? [] : bands;
  const places = doubts.length > 0 ? entries : [...entries, ...created];
  const changes = counts ? await withFigures(connection, places, id, revision, counting, origin) : [];
  await insertAmendment(connection, {
    actor,
    words,
    revision: {
      trial: id,
      revision,
      json,
      sha256: await sha256Hex(json),
      at,
      interest,
      aerosol,
      reason: amendment.reason,
    },
    runs: stored.map(({ rowSha256: _, ...row }) => ({ ...row, revision, analysisJson: conditionsOf(runs[row.n]!) })),
    result: {
      trial: id,
      revision,
      methodVersion: analysis.method_version,
      methodOrdinal: ordinal,
      roomRevision,
      json: resultJson,
      sha256: await sha256Hex(resultJson),
      at,
    },
    bands,
    measures,
    newEntries,
    named: await findNamedSetting(connection, setting),
    doubts: doubts.map((code) => doubtReason({ code })),
    readState: state,
    readSetting: setting,
    readAdoption: adoption.ordinal,
    pools: await repool(connection, changes, { adoption }),
  });
}

function conditionsOf({ marks, windows, mixingFan, ventilation, series }: Prepared["runs"][number]): string {
  const { cropFromS, cropToS } = series;
  const conditions: RunConditions = { marks, windows, cropFromS, cropToS, mixingFan, ventilation };
  return canonicalJson(conditions);
}
