import type { Database } from "../../db/database.ts";
import { eraseFiles, eraseSeries, eraseWords } from "../../db/erase.ts";
import { listQuestionDigests } from "../../db/questions.ts";
import { findHandleDigest } from "../../db/submitters.ts";
import { findTrial, listRecords, listRuns, type StoredTrial } from "../../db/trials.ts";
import { digestsIn } from "../trial-record.ts";

/**
 * What of a trial may be erased: the words that may name a person, what was asked and answered, the files as uploaded, the
 * parsed readings, or the name of who tested, which stands beside all tests of the same submitter.
 */
export const ERASABLE = ["words", "questions", "files", "series", "handle"] as const;
export type Erasable = (typeof ERASABLE)[number];

/** Erases part of a trial for good; hashes, results and ids stay, so that what was cited can still be told apart. */
export async function eraseFromTrial(
  db: Database,
  trial: string,
  what: Erasable,
  reason: string,
  at: string,
): Promise<number> {
  const stored = await findTrial(db.read, trial);
  const runs = await listRuns(db.read, trial, stored.revision);
  const erased = { reason, at };
  if (what === "files") {
    const hashes = runs.flatMap(({ file }) => (file ? [file] : []));
    await eraseFiles(db, hashes, erased);
    return hashes.length;
  }
  if (what === "series") {
    const hashes = runs.map(({ series }) => series);
    await eraseSeries(db, hashes, erased);
    return hashes.length;
  }
  const all = [...new Set(await digestsOf(db, stored, what))];
  await eraseWords(db, all, erased);
  return all.length;
}

async function digestsOf(db: Database, trial: StoredTrial, what: "words" | "questions" | "handle"): Promise<string[]> {
  if (what === "questions") return listQuestionDigests(db.read, trial.id);
  if (what === "handle") return [await findHandleDigest(db, trial.submitter)].filter((digest) => digest !== null);
  const records = await listRecords(db.read, trial.id);
  return records.flatMap((json) => digestsIn(JSON.parse(json) as Record<string, unknown>));
}
