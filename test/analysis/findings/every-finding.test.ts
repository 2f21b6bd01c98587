import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import { FINDING_CODES } from "../../../analysis/analysis.ts";
import type { Trial } from "../../../analysis/trial.ts";
import { FINDING_CASES } from "./finding-cases.ts";

function resultOf(trial: Trial, band = "mass") {
  const result = analyseTrial(trial).results.find(({ band: { name } }) => name === band);
  if (result === undefined) throw new Error(`no result for ${band}: ${JSON.stringify(analyseTrial(trial).refusals)}`);
  return result;
}

describe("a trial raises a finding that its twin does not", () => {
  test("each code has its case", () => {
    expect(Object.keys(FINDING_CASES).sort()).toEqual([...FINDING_CODES].sort());
  });

  test.each(FINDING_CODES)("%s", (code) => {
    const { raises, twin, widens = false, band } = FINDING_CASES[code];
    const result = resultOf(raises(), band);
    const found = result.findings.filter((finding) => finding.code === code);
    expect(found).toHaveLength(1);
    expect(resultOf(twin(), band).findings.map((finding) => finding.code)).not.toContain(code);

    const [finding] = found;
    // What was seen, then what to do better.
    expect(finding!.message.split(/[.:!?] /).length).toBeGreaterThan(1);
    const part = result.budget.find(({ source }) => source === code);
    expect(part !== undefined).toBe(widens);
    expect(finding!.effectM3PerH).toEqual(part ? expect.closeTo(part.u, 9) : null);
    expect(finding!.value).not.toBeNull();
  });
});
