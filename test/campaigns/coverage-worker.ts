import { parentPort, workerData } from "node:worker_threads";
import { judgeTrial } from "./judge-trial.ts";
import { kindsNamed } from "./kinds.ts";

/** What one thread does of a campaign: every `of`th trial of each kind. */
export interface Share {
  readonly kinds: readonly string[];
  readonly trials: number;
  readonly seed: number;
  readonly first: number;
  readonly of: number;
}

const { kinds, trials, seed, first, of }: Share = workerData;
for (const kind of kindsNamed(kinds)) {
  const verdicts = [];
  for (let number = first; number < trials; number += of) {
    verdicts.push(judgeTrial(kind, seed, number));
  }
  parentPort!.postMessage(verdicts);
}
