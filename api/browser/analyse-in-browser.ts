import { analyseTrial } from "../../analysis/analyse-trial.ts";
import type { Spread } from "../../analysis/expected-elsewhere.ts";
import { MAX_BODY_BYTES, tooLarge, type UploadedFile } from "../body.ts";
import { type Complaint, RequestError } from "../problem.ts";
import { requireResult } from "../require-result.ts";
import { type PreparedTrial, prepareTrial } from "../trial-input.ts";
import type { AnalysisOut } from "../wire/analysis.ts";
import { withExpectation, writeAnalysis } from "../write-analysis.ts";
import { readTrial } from "./read-trial.ts";
import { refuse, Unread } from "./shape.ts";

/** What a problem document says, as far as a page shows it. */
export interface Refused {
  readonly code: string;
  readonly detail: string;
  readonly errors: readonly Complaint[];
}

/** An analysis, a refusal, or both: runs without a result still show their phases and what was dropped. */
export interface Answered {
  readonly analysis: AnalysisOut | null;
  readonly problem: Refused | null;
  /** The runs as they were read, where they were. */
  readonly prepared: PreparedTrial | null;
}

/**
 * What `POST /v1/analyses` answers to a trial whose runs are these files, made where the reader sits by the same code.
 * @param spread what holds between laboratories; null leaves out where another one's result is expected
 * @returns null where only the server can answer: the page is not in a secure context, or the trial is not of this form
 */
export async function analyseInBrowser(
  trial: unknown,
  files: ReadonlyMap<string, UploadedFile>,
  spread: Spread | null,
): Promise<Answered | null> {
  if (!globalThis.crypto?.subtle) return null; // what draws begin from is a SHA-256
  let analysis: AnalysisOut | null = null;
  let prepared: PreparedTrial | null = null;
  try {
    const bytes = [...files.values()].reduce((sum, file) => sum + file.bytes.length, 0);
    if (bytes > MAX_BODY_BYTES) throw tooLarge();
    prepared = await prepareTrial(readTrial(trial), files, async () => refuse());
    analysis = writeAnalysis(analyseTrial(prepared.input), prepared.runs, prepared.volume);
    requireResult(analysis);
    return { analysis: spread ? withExpectation(analysis, spread) : analysis, problem: null, prepared };
  } catch (error) {
    if (error instanceof Unread) return null;
    if (!(error instanceof RequestError)) throw error;
    return { analysis, problem: { code: error.code, detail: error.message, errors: error.errors }, prepared };
  }
}
