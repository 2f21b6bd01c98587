import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import { type Estimate, interval95 } from "../../../analysis/estimate.ts";
import { drawMarkedLog, type Shift, STRENGTHS, type Strength, withMarks } from "../../campaigns/marked-log.ts";
import { createDice } from "../../campaigns/occasion.ts";

const LOGS = 40;

/** Shares of simulated logs, their cleaner_on so far off, whose intervals hold the truth, and that are told or serious. */
function sharesOf(strength: Strength, shift: Shift) {
  const logs = Array.from({ length: LOGS }, (_, number) => {
    const { trial, band, cadrM3PerH, kNaturalPerH } = drawMarkedLog(strength, createDice(20_261_125, strength, number));
    const { results } = analyseTrial(withMarks(trial, shift, "cleaner_on"));
    const result = results.find((r) => r.band.name === band)!;
    return {
      rate: holds(result.cadrM3PerH, cadrM3PerH),
      natural: holds(result.natural.kPerH, kNaturalPerH),
      told: result.findings.some(({ code }) => code === "marks-contradicted"),
      serious: result.findings.some(({ severity }) => severity === "serious"),
    };
  });
  const share = (of: keyof (typeof logs)[number]) => logs.filter((log) => log[of]).length / LOGS;
  return { rate: share("rate"), natural: share("natural"), told: share("told"), serious: share("serious") };
}

function holds(estimate: Estimate, truth: number): boolean {
  const { low, high } = interval95(estimate);
  return low <= truth && truth <= high;
}

// Binomial: 95 % of 40 lies below 35 once in 70 sets, below 34 once in 300.
describe.each(STRENGTHS)("cleaner_on somewhat off, %s", (strength) => {
  test.each<Shift>([-60, -30, 30, 60, "minute"])("by %s: both intervals hold the truth", (shift) => {
    const { rate, natural, serious } = sharesOf(strength, shift);
    expect(rate).toBeGreaterThanOrEqual(0.87);
    expect(natural).toBeGreaterThanOrEqual(0.87);
    expect(serious).toBeLessThan(0.1);
  });
});

test("half a minute is told where the break is sharp; true marks raise nothing", () => {
  for (const shift of [-30, 30]) expect(sharesOf("strong", shift).told).toBe(1);
  for (const strength of STRENGTHS) expect(sharesOf(strength, 0).told).toBe(0);
});
