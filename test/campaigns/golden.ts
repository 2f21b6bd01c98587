import { writeFileSync } from "node:fs";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { METHOD_VERSION } from "../../analysis/method-version.ts";
import { figuresOf, GOLDEN_TRIALS, sha256Of } from "../analysis/golden-trials.ts";

/*
 * node test/campaigns/golden.ts: writes the golden results of the running method version. It is run once for a version, when
 * it is new; a file of an older version is never written again.
 */
const trials = Object.entries(GOLDEN_TRIALS).map(([name, make]) => {
  const trial = make();
  return [name, { sha256: sha256Of(trial), figures: Object.fromEntries(figuresOf(analyseTrial(trial))) }];
});
const path = new URL(`../fixtures/golden/${METHOD_VERSION}.fixture.json`, import.meta.url);
const source = `What method ${METHOD_VERSION} makes of test/analysis/golden-trials.ts, written by test/campaigns/golden.ts`;
writeFileSync(
  path,
  `${JSON.stringify({ source, version: METHOD_VERSION, trials: Object.fromEntries(trials) }, null, 1)}\n`,
);
