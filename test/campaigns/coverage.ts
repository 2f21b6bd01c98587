import { writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { parseArgs } from "node:util";
import { Worker } from "node:worker_threads";
import { brokenLimits } from "./coverage-limits.ts";
import { coverageRow, coverageTable, seedTable } from "./coverage-table.ts";
import type { Share } from "./coverage-worker.ts";
import type { Verdict } from "./judge-trial.ts";
import { KINDS, kindsNamed } from "./kinds.ts";

/*
 * Does a 95 % interval hold the truth 95 % of the time? Simulates trials of each kind with a known truth and analyses them.
 *
 *   node test/campaigns/coverage.ts --trials 1000 --seed 20261201,20261202,20261203 [--kinds paired,slow] [--threads 2]
 *                                   [--json verdicts.json]
 *
 * Kinds marked * break the estimator's model. U is the median half-width over the true CADR; U/oracle that over a fit that knows
 * the noise. err/logl: root mean square error of k_total − k_natural over that of the log-linear fit with the background's reading
 * taken off. told: the share with a finding that speaks of what breaks the model, and the share of the missed ones with it; shifted > u:
 * the share that is shifted by more than u in truth (with counters that hardly err), and how many of these are told; then the
 * coverage with such a finding and without. After the bar the coverage with one part of the method off: B free, noise without
 * memory, t at ∞ degrees of freedom. retraced: the campaign's fits reproduce the engine's. Ends with 1 where a limit is broken.
 */
const { values } = parseArgs({
  options: {
    trials: { type: "string", default: "200" },
    seed: { type: "string", default: "1" },
    kinds: { type: "string", default: "" },
    threads: { type: "string", default: String(availableParallelism()) },
    json: { type: "string" },
  },
});
const [trials, threads] = [values.trials, values.threads].map(wholeNumber) as [number, number];
const seeds = values.seed.split(",").map(wholeNumber);
const kinds = kindsNamed(values.kinds.split(",").filter((name) => name !== ""));

const names = kinds.map(({ name }) => name);
const verdicts: Verdict[] = [];
for (const seed of seeds) {
  const shares = Array.from(
    { length: threads },
    (_, first): Share => ({ kinds: names, trials, seed, first, of: threads }),
  );
  verdicts.push(...(await Promise.all(shares.map(runShare))).flat().sort((a, b) => a.number - b.number));
}
const ofKind = (name: string) => verdicts.filter(({ kind }) => kind === name);
const rows = names.map((name) => coverageRow(name, ofKind(name)));
console.log(`${trials} trials a kind for each seed of ${seeds.join(", ")}\n`);
console.log(coverageTable(rows, KINDS));
const modelled = verdicts.filter((v) => kinds.some(({ name, modelled }) => name === v.kind && modelled));
const together = modelled.length > 0 ? coverageRow("modelled kinds together", modelled) : null;
if (together) console.log(`\nmodelled kinds together: ${(100 * together.coverage).toFixed(2)} %`);
if (seeds.length > 1) console.log(`\nseed by seed\n${seedTable(names, verdicts, seeds)}`);
if (values.json) writeFileSync(values.json, JSON.stringify(verdicts));
const broken = brokenLimits(rows, together, kinds, verdicts);
console.log(broken.length === 0 ? "\nall limits hold" : `\n${broken.join("\n")}`);
process.exitCode = broken.length === 0 ? 0 : 1;

function wholeNumber(text: string): number {
  const number = Number(text);
  if (!(Number.isSafeInteger(number) && number > 0)) throw new RangeError(`a whole number above 0, not ${text}`);
  return number;
}

function runShare(share: Share): Promise<Verdict[]> {
  return new Promise((resolve, reject) => {
    const done: Verdict[] = [];
    const worker = new Worker(new URL("./coverage-worker.ts", import.meta.url), { workerData: share });
    worker.on("message", (verdicts: Verdict[]) => done.push(...verdicts));
    worker.on("error", reject);
    worker.on("exit", (code) => (code === 0 ? resolve(done) : reject(new Error(`a thread ended with ${code}`))));
  });
}
