import { analyseTrial } from "./analyse-trial.ts";
import type { Analysis } from "./analysis.ts";
import { METHOD_ORDINAL, METHOD_VERSION } from "./method-version.ts";
import type { Trial } from "./trial.ts";

/** A version of the method: its name, its place in the changelog, and what it makes of a trial. */
export interface Method {
  readonly version: string;
  readonly ordinal: number;
  readonly analyse: (trial: Trial) => Analysis;
}

/** The version that this code is. */
export const METHOD: Method = { version: METHOD_VERSION, ordinal: METHOD_ORDINAL, analyse: analyseTrial };
