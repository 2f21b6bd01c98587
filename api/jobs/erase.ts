import type { Database } from "../../db/database.ts";
import { eraseFiles, eraseSeries, eraseWords } from "../../db/erase.ts";
import { listQuestionDigests } from "../../db/questions.ts";
import { findTrial, listRecords, listRuns } from "../../db/trials.ts";
import { digestsIn } from "../trial-record.ts";

/** What of a trial may be erased: the words that may name a person, what was asked and answered, the files as uploaded, or the parsed readings. */
export const ERASABLE = ["words", "questions", "files", "series"] as const;
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
  const digests =
    what === "questions"
      ? await listQuestionDigests(db.read, trial)
      : (await listRecords(db.read, trial)).flatMap((json) => digestsIn(JSON.parse(json) as Record<string, unknown>));
  const all = [...new Set(digests)];
  await eraseWords(db, all, erased);
  return all.length;
}
