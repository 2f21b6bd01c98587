import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { crashRegistry } from "../support/crash/crash-registry.ts";

/* tsx test/campaigns/crash.ts --kills 50 --seed 1: kill -9 of a registry in use, and whether anything that was acknowledged is lost. */
const { values } = parseArgs({ options: { kills: { type: "string" }, seed: { type: "string" } } });
execFileSync("npm", ["run", "build", "-s"], { cwd: join(import.meta.dirname, "../..") });
const started = performance.now();
const { known, kills, wholeDumps, halfDumps, versionsAdopted, wrong } = await crashRegistry({
  kills: Number(values.kills ?? 50),
  seed: Number(values.seed ?? 1),
  sample: 3,
  tell: console.log,
});
for (const [what, count] of kills) console.log(`${count} × ${what}`);
console.log(
  `${known.trials.size} trials, ${known.questions.size} questions and ${known.withdrawn.size} withdrawals acknowledged, ` +
    `${known.unanswered} requests cut off; ${wholeDumps} whole dumps, ${halfDumps} left half under another name, ${versionsAdopted} versions adopted; ` +
    `${Math.round((performance.now() - started) / 1000)} s`,
);
for (const words of wrong) console.log(words);
console.log(wrong.length === 0 ? "Nothing lost, nothing half, the restored list is the same" : `${wrong.length} wrong`);
process.exitCode = wrong.length === 0 ? 0 : 1;
