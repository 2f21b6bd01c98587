import { parseArgs } from "node:util";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { coverageFactor95, type Estimate, interval95 } from "../../analysis/estimate.ts";
import { median } from "../../analysis/median.ts";
import type { MarkEvent } from "../../analysis/trial.ts";
import { drawMarkedLog, type Shift, STRENGTHS, type Strength, withMarks } from "./marked-log.ts";
import { createDice } from "./occasion.ts";

/*
 * What wrong marks do: one log each, marked true but for one event that lies some seconds off (or rounded to the minute).
 *
 *   node test/campaigns/marks.ts --trials 60 --seed 20261201 [--strengths room,strong]
 *
 * covers, natural: the 95 % interval holds the true CADR, the true natural loss. told: a mark is said to be contradicted. U: median half-width over the true
 * CADR. The same logs stand in every row of a strength.
 */
const { values: options } = parseArgs({
  options: {
    trials: { type: "string", default: "60" },
    seed: { type: "string", default: "1" },
    strengths: { type: "string", default: STRENGTHS.join(",") },
  },
});
const trials = Number(options.trials);
const seed = Number(options.seed);
const strengths = STRENGTHS.filter((name) => options.strengths.split(",").includes(name));

const ROWS: readonly (readonly [MarkEvent | "all", readonly Shift[]])[] = [
  ["all", [0, "minute"]],
  ["cleaner_on", [-60, -30, -15, 15, 30, 45, 60, 90, 120]],
  ["aerosol_end", [-60, -30, 30, 60]],
  ["cleaner_off", [-60, -30, 30, 60, 120]],
];

console.log("strength  event        off by s   covers  natural     told  serious  refused  U");
for (const strength of strengths) {
  for (const [event, shifts] of ROWS) for (const shift of shifts) console.log(row(strength, event, shift));
}

function row(strength: Strength, event: MarkEvent | "all", shift: Shift): string {
  const judged = Array.from({ length: trials }, (_, number) => {
    const { trial, band, cadrM3PerH, kNaturalPerH } = drawMarkedLog(
      strength,
      createDice(seed, `marks ${strength}`, number),
    );
    const result = analyseTrial(withMarks(trial, shift, event)).results.find((r) => r.band.name === band);
    if (result === undefined) return null;
    const told = result.findings.some(({ code }) => code === "marks-contradicted");
    const serious = result.findings.some(({ severity }) => severity === "serious");
    const { u, dof } = result.cadrM3PerH;
    const relativeU = (coverageFactor95(dof) * u) / cadrM3PerH;
    const covers = holds(result.cadrM3PerH, cadrM3PerH);
    return { covers, natural: holds(result.natural.kPerH, kNaturalPerH), told, serious, relativeU };
  });
  const given = judged.filter((v) => v !== null);
  const share = (yes: number, of: number) => `${((100 * yes) / of).toFixed(1)} %`.padStart(7);
  const of = (is: (v: (typeof given)[number]) => boolean) => share(given.filter(is).length, given.length);
  const figures = [
    of((v) => v.covers),
    of((v) => v.natural),
    of((v) => v.told),
    of((v) => v.serious),
    share(trials - given.length, trials),
  ];
  const u = median(given.map((v) => v.relativeU)).toFixed(3);
  return [strength.padEnd(8), event.padEnd(12), String(shift).padStart(8), ...figures, u].join("  ");
}

function holds(estimate: Estimate, truth: number): boolean {
  const { low, high } = interval95(estimate);
  return low <= truth && truth <= high;
}
