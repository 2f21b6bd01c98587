import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import { METHOD_VERSION } from "../../../analysis/method-version.ts";
import { canonicalJson } from "../../../db/content-hash.ts";
import type { Connection } from "../../../db/database.ts";
import type { Damage } from "../../../db/fixity/damage.ts";
import { listSample } from "../../../db/sample.ts";
import { StoreError } from "../../../db/store-error.ts";
import { findTrialInput } from "../../find-trial-input.ts";
import type { AnalysisOut } from "../../wire/analysis.ts";
import { writeAnalysis } from "../../write-analysis.ts";

/** How many results were worked out again, and of how many the readings are erased. */
export interface Reanalysed {
  readonly same: number;
  readonly erased: number;
}

/** Analyses stored trials again, a sample by chance: every figure must come out to the last digit. */
export async function checkResults(connection: Connection, found: Damage[], sample: number): Promise<Reanalysed> {
  let [same, erased] = [0, 0];
  for (const { trial, json } of await listSample(connection, METHOD_VERSION, sample)) {
    try {
      if (await comesOutAgain(connection, trial, json)) same++;
      else found.push({ table: "results", key: trial, what: "analysed again it gives other figures" });
    } catch (error) {
      if (error instanceof StoreError && error.code === "gone") erased++;
      else
        found.push({ table: "results", key: trial, what: `it cannot be analysed again: ${(error as Error).message}` });
    }
  }
  return { same, erased };
}

async function comesOutAgain(connection: Connection, trial: string, json: string): Promise<boolean> {
  const { input, volume } = await findTrialInput(connection, trial);
  const runs = input.runs.map((run) => ({ input: run }));
  const [again, kept] = [writeAnalysis(analyseTrial(input), runs, volume), JSON.parse(json) as AnalysisOut];
  return canonicalJson([again.results, again.naturals]) === canonicalJson([kept.results, kept.naturals]);
}
