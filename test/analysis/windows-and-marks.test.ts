import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { interval95 } from "../../analysis/estimate.ts";
import type { MarkEvent, Run } from "../../analysis/trial.ts";
import { asCounted, decay, everyS, QUIET, seededNoise } from "./simulated-decay.ts";
import { background, FLOOR, fullLog, K_TOTAL, massOf, natural, ON_S } from "./test-runs.ts";
import { channelOf, runOf, trialOf } from "./trial-of.ts";

const TRUTH = 150;
const holds = (runs: Run[]) => {
  const { low, high } = interval95(massOf(analyseTrial(trialOf(runs))).cadrM3PerH);
  return low < TRUTH && TRUTH < high;
};
const mark = (event: MarkEvent, tS: number) => ({ event, tS });

/** The cleaner runs from the first row: 3 min of its own floor, 2 min of feed, then the decay. */
function underCleaner(more: Partial<Run> = {}): Run {
  const tS = everyS(5, 2100);
  const truth = (t: number) => {
    if (t < 180) return FLOOR;
    return t < 300 ? FLOOR + (1000 * (t - 180)) / 120 : decay(1000, K_TOTAL, FLOOR)(t - 300);
  };
  return runOf(2, "total", tS, [channelOf(asCounted(tS, truth, QUIET, seededNoise(31)))], more);
}

describe("aerosol fed under the running cleaner", () => {
  test.each([
    ["no mark", []],
    ["the cleaner marked at the first row", [mark("cleaner_on", 0)]],
    ["the cleaner marked before the first row", [mark("cleaner_on", -60)]],
    ["cleaner and end of the feed marked", [mark("cleaner_on", 0), mark("aerosol_end", 300)]],
  ])("%s: the decay begins after the peak", (_, marks) => {
    const runs = [background(), natural(), underCleaner({ marks })];
    const { window } = massOf(analyseTrial(trialOf(runs))).total;
    expect(window.fromS).toBeGreaterThan(300);
    expect(window.fromS).toBeLessThan(420);
    expect(holds(runs)).toBe(true);
  });

  test("air read while the cleaner ran is its floor and no reading of the clean room", () => {
    const alone = massOf(analyseTrial(trialOf([natural(), underCleaner()])));
    const withReading = massOf(analyseTrial(trialOf([background(), natural(), underCleaner()])));
    expect(alone.natural.kPerH.u).toBeGreaterThan(2 * withReading.natural.kPerH.u);
    expect(holds([natural(), underCleaner()])).toBe(true);
  });
});

describe("marks", () => {
  test.each([
    ["the end of the feed marked while the readings still rise", [mark("aerosol_end", 200)]],
    ["a setting changed before the cleaner came on", [mark("setting_changed", 1000), mark("cleaner_on", ON_S)]],
    ["a cleaner_on after the last row", [mark("cleaner_on", 99_999)]],
  ])("%s costs nothing", (_, marks) => {
    const { total } = massOf(analyseTrial(trialOf([fullLog(K_TOTAL, 4, { marks })])));
    expect(total.window.fromS).toBeGreaterThan(ON_S);
    expect(total.window.toS).toBe(3000);
    expect(holds([fullLog(K_TOTAL, 4, { marks })])).toBe(true);
  });

  test("that contradict the readings cost a wide interval, which still holds the truth", () => {
    for (const tS of [900, 2000]) expect(holds([fullLog(K_TOTAL, 4, { marks: [mark("cleaner_on", tS)] })])).toBe(true);
  });
});

describe("a total decay", () => {
  const total = (truth: (tS: number) => number) => {
    const tS = everyS(10, 1800);
    return runOf(2, "total", tS, [channelOf(asCounted(tS, truth, QUIET, seededNoise(32)))]);
  };

  test("begins where it leaves the level before the cleaner took hold", () => {
    const late = total((t) => (t < 90 ? 1000 : decay(1000, K_TOTAL, FLOOR)(t - 90)));
    const { window } = massOf(analyseTrial(trialOf([background(), natural(), late]))).total;
    expect(window.fromS).toBeGreaterThanOrEqual(90);
    expect(window.fromS).toBeLessThan(180);
  });

  test("ends where new aerosol comes in", () => {
    const spoilt = total((t) => decay(1000, K_TOTAL, FLOOR)(t) + (t > 900 ? 400 : 0));
    const { window } = massOf(analyseTrial(trialOf([background(), natural(), spoilt]))).total;
    expect([window.toS > 800, window.toS <= 900, window.why]).toEqual([
      true,
      true,
      expect.stringMatching(/rose again/),
    ]);
    expect(holds([background(), natural(), spoilt])).toBe(true);
  });

  test("is not moved by a glitch at the ceiling: one reading that says full among low ones is none", () => {
    const run = total(decay(1000, K_TOTAL, FLOOR));
    const channels = run.series.channels.map((channel) => ({
      ...channel,
      ceiling: 65_535,
      values: channel.values.map((v, i) => (i === 60 || i === 120 ? 65_535 : v)),
    }));
    const result = massOf(
      analyseTrial(trialOf([background(), natural(), { ...run, series: { ...run.series, channels } }])),
    );
    expect(result.total.window.fromS).toBeLessThan(120);
    expect(result.findings.map(({ code }) => code)).not.toContain("at-ceiling");
  });

  test("uses the longer side of a gap longer than all the rest: the clock was set while it was logged", () => {
    const run = total(decay(1000, K_TOTAL, FLOOR));
    const jumped = { ...run, series: { ...run.series, tS: run.series.tS.map((t) => (t > 1200 ? t + 3600 : t)) } };
    const { window } = massOf(analyseTrial(trialOf([background(), natural(), jumped]))).total;
    expect(window.toS).toBe(1200);
    expect(holds([background(), natural(), jumped])).toBe(true);
  });
});
