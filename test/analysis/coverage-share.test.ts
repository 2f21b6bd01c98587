import { expect, test } from "vitest";
import { type CoverageRow, coverageRow } from "../campaigns/coverage-table.ts";
import { judgeTrial } from "../campaigns/judge-trial.ts";
import { kindsNamed } from "../campaigns/kinds.ts";

/** A small part of the coverage campaign, at a seed of its own. Limits lie three standard errors outside the campaign's. */
const TRIALS = 60;
const SEED = 7;

function campaign(name: string): CoverageRow {
  const [kind] = kindsNamed([name]);
  const verdicts = Array.from({ length: TRIALS }, (_, number) => judgeTrial(kind!, SEED, number));
  return coverageRow(name, verdicts);
}

test.each(["paired", "paired-no-background", "full-log", "two-counters", "few-counts"])(
  "%s: intervals hold, and are no wider than they must",
  (name) => {
    const row = campaign(name);
    expect(row.coverage).toBeGreaterThan(0.86);
    expect(row.refused).toBeLessThan(0.05);
    expect(row.uOverOracle).toBeLessThan(1.3);
    expect(row.uOverOracle).toBeGreaterThan(0.85);
    expect(Math.abs(row.meanZ)).toBeLessThan(0.45);
    if (name !== "paired-no-background") expect(row.errorOverLogLinear).toBeLessThan(0.95);
    expect(row.retraced).toBe(1);
  },
);

test("without a memory in the noise the intervals of plain paired runs hold less often", () => {
  const row = campaign("paired");
  expect(row.withoutMemory).toBeLessThan(row.coverage);
});
