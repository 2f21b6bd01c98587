import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import type { BandResult } from "../../../analysis/analysis.ts";
import { interval95 } from "../../../analysis/estimate.ts";
import { prepareRun } from "../../../analysis/prepare-run.ts";
import { withSpeedChanges } from "../../../analysis/speed-changes.ts";
import type { Run } from "../../../analysis/trial.ts";
import { asCounted, everyS, QUIET, seededNoise } from "../simulated-decay.ts";
import { background, FLOOR, K_NATURAL, K_TOTAL, massOf, natural } from "../test-runs.ts";
import { COUNTER, channelOf, runOf, trialOf } from "../trial-of.ts";
import { on, type Stage, stagedRun } from "./staged-run.ts";

const TRUTH = 150;
const START = 1000;
const SEEDS = Array.from({ length: 30 }, (_, i) => 100 + i);

const total = (stages: readonly Stage[], seed: number, more: Partial<Run> = {}) =>
  stagedRun(2, "total", stages, seed, { startLevel: START, ...more });
const resultOf = (run: Run): BandResult => massOf(analyseTrial(trialOf([background(), natural(), run])));
const changeIn = (run: Run, others: readonly Run[] = [background()]) => {
  const prepared = [...others, run].map((each) => ({ run: prepareRun(each, COUNTER), counter: COUNTER }));
  return withSpeedChanges(prepared).at(-1)!.run.timeline.cycles[0]!.speedChange;
};
const said = ({ findings }: BandResult) => findings.find(({ code }) => code === "speed-change");
const holds = ({ cadrM3PerH }: BandResult) => {
  const { low, high } = interval95(cadrM3PerH);
  return low < TRUTH && TRUTH < high;
};

describe("a unit switched off in mid-decay, unmarked", () => {
  const run = (seed: number) => total([on(15), on(15, 0)], seed);

  test("is rated by what came before, and both rates are told", () => {
    const result = resultOf(run(1));
    const { window } = result.total;
    expect([window.toS > 800, window.toS <= 910, window.why]).toEqual([
      true,
      true,
      expect.stringMatching(/rate changed/),
    ]);
    expect(holds(result)).toBe(true);
    expect(said(result)!.value).toBeCloseTo(K_NATURAL, 0);
    expect(said(result)!.message).toMatch(/from 5\.\d\d to 0\.\d\d \/h/);
  });

  test("is seen in nine of ten quiet logs, within its u", () => {
    const found = SEEDS.map((seed) => changeIn(run(seed))).flatMap((change) => (change ? [change] : []));
    expect(found.length).toBeGreaterThanOrEqual(27);
    expect(found.filter(({ atS, uS }) => Math.abs(atS - 900) > Math.max(4 * uS, 30)).length).toBeLessThanOrEqual(2);
  });

  test("a cleaner_off mark in its place ends the decay, and nothing is said", () => {
    const result = resultOf(total([on(15), on(15, 0)], 1, { marks: [{ event: "cleaner_off", tS: 900 }] }));
    expect(said(result)).toBeUndefined();
    expect(result.total.window.toS).toBeLessThanOrEqual(900);
    expect(holds(result)).toBe(true);
  });

  test("a window fixed across it is told that its rate is neither", () => {
    const windows = [{ phase: "total" as const, n: 0, fromS: 30, toS: 1700 }];
    expect(said(resultOf(total([on(15), on(15, 0)], 1, { windows })))!.severity).toBe("serious");
    const before = [{ phase: "total" as const, n: 0, fromS: 30, toS: 800 }];
    expect(said(resultOf(total([on(15), on(15, 0)], 1, { windows: before })))).toBeUndefined();
  });

  test("before anything can be measured, it is refused rather than fitted across", () => {
    const { results, refusals } = analyseTrial(trialOf([background(), natural(), total([on(6), on(24, 0)], 1)]));
    expect(results).toEqual([]);
    expect(refusals.map(({ code }) => code)).toContain("less-than-one-halving");
  });
});

test("a unit that slows by 30 % is seen in most quiet logs, with a background reading or without", () => {
  const run = (seed: number) => total([on(15), on(15, 0.7)], seed);
  for (const others of [[background()], []]) {
    expect(SEEDS.filter((seed) => changeIn(run(seed), others)).length).toBeGreaterThanOrEqual(24);
  }
});

describe("no change of speed", () => {
  const falseAlarms = (run: (seed: number) => Run) =>
    SEEDS.filter((seed) => changeIn(run(seed)) || changeIn(run(seed), [])).length;
  const bent = (truth: (t: number) => number) => (seed: number) => {
    const tS = everyS(10, 1800);
    return runOf(2, "total", tS, [channelOf(asCounted(tS, truth, QUIET, seededNoise(seed)))]);
  };
  const k = K_TOTAL / 3600;

  test.each<[string, (seed: number) => Run]>([
    ["a steady unit", (seed) => total([on(30)], seed)],
    ["a steady unit that reaches its floor", (seed) => total([on(120)], seed)],
    ["a floor of a fifth", bent((t) => 200 + 800 * Math.exp(-k * t))],
    ["two zones that mix", bent((t) => FLOOR + 900 * Math.exp(-k * t) + 100 * Math.exp(-5 * k * t))],
    [
      "a counter that compresses: 15 % lost at the start",
      bent((t) => 1000 * Math.exp(-k * t) * Math.exp(-0.15 * Math.exp(-k * t))),
    ],
    [
      "a counter that lags by a minute",
      bent((t) => (1000 / (1 - 60 * k)) * (Math.exp(-k * t) - 60 * k * Math.exp(-t / 60))),
    ],
    [
      "noise with a memory",
      (seed) =>
        stagedRun(2, "total", [on(30)], seed, { startLevel: START, noise: { ...QUIET, sigma: 0.03, tauS: 120 } }),
    ],
  ])("%s: at most one false alarm in thirty", (_, run) => {
    expect(falseAlarms(run)).toBeLessThanOrEqual(1);
  });

  test("and then no finding", () => {
    expect(said(resultOf(total([on(30)], 1)))).toBeUndefined();
  });
});
