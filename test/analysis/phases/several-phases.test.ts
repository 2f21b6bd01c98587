import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import { interval95 } from "../../../analysis/estimate.ts";
import { prepareRun } from "../../../analysis/prepare-run.ts";
import type { MarkEvent, Run } from "../../../analysis/trial.ts";
import { K_NATURAL, K_TOTAL, massOf } from "../test-runs.ts";
import { COUNTER, trialOf } from "../trial-of.ts";
import { FEED, off, on, type Stage, stagedRun } from "./staged-run.ts";

const TRUTH = 150;
const analyse = (run: Run) => massOf(analyseTrial(trialOf([run])));
const holds = (run: Run) => {
  const { low, high } = interval95(analyse(run).cadrM3PerH);
  return low < TRUTH && TRUTH < high;
};
/** Marks where the stages change; the aerosol's end where marked too. */
function marksOf(stages: readonly Stage[], withFeeds = true): { event: MarkEvent; tS: number }[] {
  const marks: { event: MarkEvent; tS: number }[] = [];
  let tS = 0;
  stages.forEach((stage, i) => {
    const before = stages[i - 1];
    if (stage.cleaner && !before?.cleaner) marks.push({ event: "cleaner_on", tS });
    if (!stage.cleaner && before?.cleaner) marks.push({ event: "cleaner_off", tS });
    if (withFeeds && before?.feedPerH) marks.push({ event: "aerosol_end", tS });
    tS += stage.lengthS;
  });
  return marks;
}

describe("on, off, on, off within one fill of aerosol, marked", () => {
  const stages = [off(5), FEED, off(20), on(12), off(20), on(12), off(10)];
  const run = stagedRun(0, "full_log", stages, 5, { marks: marksOf(stages) });

  test("each phase is listed, and they are pooled as repeats", () => {
    const { total, natural } = analyse(run);
    expect(total.decays).toHaveLength(2);
    expect(natural.decays).toHaveLength(2);
    for (const { kPerH } of total.decays) expect(Math.abs(kPerH.value - K_TOTAL)).toBeLessThan(3 * kPerH.u);
    for (const { kPerH } of natural.decays) expect(Math.abs(kPerH.value - K_NATURAL)).toBeLessThan(3 * kPerH.u);
    expect(total.kPerH.u).toBeLessThan(Math.max(...total.decays.map(({ kPerH }) => kPerH.u)));
    expect(holds(run)).toBe(true);
  });

  test("no window crosses a mark", () => {
    const { phases } = analyseTrial(trialOf([run]));
    const times = marksOf(stages).map(({ tS }) => tS);
    for (const { fromS, toS } of phases) expect(times.filter((t) => t > fromS && t < toS)).toEqual([]);
  });
});

describe("several feeds", () => {
  const round = [FEED, off(20), on(25)];
  const stages = [off(5), ...round, ...round, ...round];

  test.each([
    ["marked", marksOf(stages)],
    ["the cleaner marked", marksOf(stages, false)],
    ["without a mark: split where the readings rise", []],
  ])("%s: three decays each way, pooled", (_, marks) => {
    const run = stagedRun(0, "full_log", stages, 6, { marks });
    const { total, natural, findings } = analyse(run);
    expect([total.decays.length, natural.decays.length]).toEqual([3, 3]);
    for (const { code } of findings) expect(["marks-contradicted", "speed-change"]).not.toContain(code);
    expect(Math.abs(total.kPerH.value - K_TOTAL)).toBeLessThan(3 * total.kPerH.u);
    expect(holds(run)).toBe(true);
  });

  test("without marks the pooled interval holds the truth in 36 or more of 40 logs", () => {
    const runs = Array.from({ length: 40 }, (_, i) => stagedRun(0, "full_log", stages, 200 + i));
    expect(runs.filter(holds).length).toBeGreaterThanOrEqual(36);
  });

  test("of a natural log: each decay by itself", () => {
    const run = stagedRun(0, "natural", [off(5), FEED, off(60), { lengthS: 900, cleaner: 1 }, FEED, off(60)], 7);
    const { naturals } = analyseTrial(trialOf([run]));
    const { decays, kPerH } = naturals.find(({ band }) => band.name === "mass")!;
    expect(decays).toHaveLength(2);
    expect(Math.abs(kPerH.value - K_NATURAL)).toBeLessThan(3 * kPerH.u);
  });

  test.each<[string, Stage[]]>([
    ["one feed", [off(5), FEED, off(20), on(25)]],
    ["one feed in puffs", [off(5), FEED, off(1), FEED, off(2), FEED, off(20), on(25)]],
    [
      "a small puff while the cleaner runs",
      [off(5), FEED, off(20), on(15), { lengthS: 60, feedPerH: 6000, cleaner: 1 }, on(15)],
    ],
  ])("%s is one cycle", (_, single) => {
    expect(prepareRun(stagedRun(0, "full_log", single, 8), COUNTER).timeline.cycles).toHaveLength(1);
  });
});
