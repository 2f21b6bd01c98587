import { METHOD, type Method } from "../analysis/method.ts";
import type { RoomVolume } from "../analysis/room-volume.ts";
import { canonicalJson, sha256Hex } from "../db/content-hash.ts";
import type { Connection } from "../db/database.ts";
import { insertTrial } from "../db/insert-trial.ts";
import { isBusyError, isLostRace, StoreError } from "../db/store-error.ts";
import { findRepeated } from "../db/trials.ts";
import type { Dependencies } from "./environment.ts";
import { findLinkedRun } from "./find-linked-run.ts";
import { packRun, planTrial, type TrialPlan } from "./plan-trial.ts";
import { requireResult } from "./require-result.ts";
import { findStatedFlow } from "./stated-flow.ts";
import type { Submission } from "./submission.ts";
import { type PreparedTrial, prepareTrial } from "./trial-input.ts";
import type { AnalysisOut } from "./wire/analysis.ts";
import type { TrialIn } from "./wire/trial.ts";
import { writeAnalysis } from "./write-analysis.ts";

/** Writers that lost the race to an entry read again and retry; with n writers at once one wins each round. */
const ATTEMPTS = 40;

/**
 * Stores a trial with its result and the new figures of its entries, all or nothing, once.
 * @returns the id, and whether it was stored now (false: the same content was stored before)
 * @throws RequestError "no-result" where no band has a clean air delivery rate, StoreError for conflicts
 */
export async function storeTrial(
  deps: Dependencies,
  submitter: string,
  submission: Submission<TrialIn>,
  idempotencyKey: string | null,
): Promise<{ id: string; stored: boolean }> {
  const { db, now, random, secret, method = METHOD } = deps;
  const contentMac = await secret.mac("trial-content", ...(await contentOf(submission)));
  const repeated = await findEarlier(db.read, submitter, contentMac, idempotencyKey);
  if (repeated) return repeated;
  const prepared = await prepareTrial(submission.trial, submission.files, (reference, path) =>
    findLinkedRun(db, reference, path),
  );
  const packed = await Promise.all(prepared.runs.map(packRun));
  const analyse = onceAVolume(prepared, method);
  const { configuration, setting } = submission.trial;
  const at = now().toISOString();
  const plan: Omit<TrialPlan, "analyse"> = {
    submitter,
    submission,
    prepared,
    packed,
    methodOrdinal: method.ordinal,
    contentMac,
    idempotencyKey,
    at,
    random,
    secret,
  };
  return retrying(() =>
    db.write(async (connection) => {
      const earlier = await findEarlier(connection, submitter, contentMac, idempotencyKey);
      if (earlier) return earlier;
      const flow = await findStatedFlow(connection, configuration, setting);
      const trial = await planTrial(connection, { ...plan, analyse: (volume) => analyse(volume, flow) });
      await insertTrial(connection, trial);
      return { id: trial.trial.id, stored: true };
    }),
  );
}

/** Runs a compare-and-swap write until nobody else changed in between what it had read. */
export async function retrying<T>(write: () => Promise<T>): Promise<T> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await write();
    } catch (error) {
      const busy = isBusyError(error);
      if (!busy && !isLostRace(error)) throw error;
      if (attempt === ATTEMPTS) {
        if (!busy) throw error; // no race lasts that long: a constraint is broken, which is a bug
        throw new StoreError("busy", "Many trials are being stored at once. Nothing was stored of this one.");
      }
      await new Promise((resolve) => setTimeout(resolve, Math.random() * 10 * Math.min(attempt, 10)));
    }
  }
}

/** What makes two requests one: the JSON in canonical form, and each file by part name and hash. */
async function contentOf({ sent, files }: Submission<TrialIn>): Promise<string[]> {
  const parts = [...files].filter(([name]) => name !== "trial").sort(([a], [b]) => (a < b ? -1 : 1));
  const hashes = await Promise.all(parts.map(async ([name, { bytes }]) => `${name}:${await sha256Hex(bytes)}`));
  return [canonicalJson(sent), ...hashes];
}

async function findEarlier(
  connection: Connection,
  submitter: string,
  contentMac: Uint8Array,
  idempotencyKey: string | null,
) {
  const earlier = await findRepeated(connection, submitter, contentMac, idempotencyKey);
  if (!earlier) return null;
  if (!earlier.sameContent) {
    throw new StoreError(
      "idempotency-conflict",
      `This Idempotency-Key came with other content before, stored as ${earlier.id}.`,
    );
  }
  return { id: earlier.id, stored: false };
}

/** The analysis, made anew only where a retry finds the room with another volume, or the setting with another flow. */
function onceAVolume(
  prepared: PreparedTrial,
  method: Method,
): (volume: RoomVolume, statedFlowM3PerH: number | null) => AnalysisOut {
  const made = new Map<string, AnalysisOut>();
  return (volume, statedFlowM3PerH) => {
    const { volumeM3 } = volume;
    const key = `${volumeM3.value} ${volumeM3.u} ${statedFlowM3PerH}`;
    const known = made.get(key);
    if (known) return known;
    const input = { ...prepared.input, room: { ...prepared.input.room, volumeM3 }, statedFlowM3PerH };
    const analysis = writeAnalysis(method.analyse(input), prepared.runs, volume);
    requireResult(analysis);
    made.set(key, analysis);
    return analysis;
  };
}
