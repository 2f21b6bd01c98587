import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import { interval95 } from "../../../analysis/estimate.ts";
import type { Run } from "../../../analysis/trial.ts";
import { background, K_NATURAL, K_TOTAL, massOf, natural, phaseRun, total } from "../test-runs.ts";
import { trialOf } from "../trial-of.ts";
import { FEED, off, on, stagedRun } from "./staged-run.ts";

const TRUTH = 150;
const analyse = (runs: readonly Run[]) => analyseTrial(trialOf(runs));
const holds = (runs: readonly Run[]) => {
  const { low, high } = interval95(massOf(analyse(runs)).cadrM3PerH);
  return low < TRUTH && TRUTH < high;
};

describe("a natural log", () => {
  test("that breaks off, when a door is opened, is used until then", () => {
    const opened = stagedRun(1, "natural", [off(5), FEED, off(40), { lengthS: 900, cleaner: 0.6 }], 31);
    const { window, kPerH } = massOf(analyse([background(), opened, total()])).natural.decays[0]!;
    expect(window.why).toMatch(/broke off/);
    expect([window.toS > 2400, window.toS <= 2820 + 60]).toEqual([true, true]);
    expect(Math.abs(kPerH.value - K_NATURAL)).toBeLessThan(3 * kPerH.u);
    expect(holds([background(), opened, total()])).toBe(true);
  });

  test("that does not break off is used to its end", () => {
    const whole = stagedRun(1, "natural", [off(5), FEED, off(55)], 32);
    expect(massOf(analyse([background(), whole, total()])).natural.decays[0]!.window).toMatchObject({ toS: 3720 });
  });
});

describe("a total log that holds the feed and a while without the cleaner", () => {
  const stages = [off(5), FEED, off(15), on(25)];
  test.each([
    ["unmarked", []],
    ["marked", [{ event: "cleaner_on" as const, tS: 1320 }]],
  ])("%s: the cleaner's decay begins where it came on", (_, marks) => {
    const run = stagedRun(2, "total", stages, 33, { marks });
    const { window, kPerH } = massOf(analyse([background(), natural(), run])).total.decays[0]!;
    expect([window.fromS >= 1290, window.fromS < 1440]).toEqual([true, true]);
    expect(Math.abs(kPerH.value - K_TOTAL)).toBeLessThan(3 * kPerH.u);
    expect(holds([background(), natural(), run])).toBe(true);
  });
});

describe("natural runs before and after", () => {
  const after = (kPerH: number) => phaseRun(3, "natural", kPerH, 5, 34);
  test("that agree are pooled to a smaller u", () => {
    const one = massOf(analyse([background(), natural(), total()])).natural;
    const two = massOf(analyse([background(), natural(), total(), after(K_NATURAL)])).natural;
    expect(two.decays).toHaveLength(2);
    expect(two.kPerH.u).toBeLessThan(one.kPerH.u);
  });

  test("that differ by more than their u give their mean, and their spread counts", () => {
    const { kPerH, decays } = massOf(analyse([background(), natural(), total(), after(0.8)])).natural;
    const [first, second] = decays.map((decay) => decay.kPerH.value) as [number, number];
    expect(kPerH.value).toBeGreaterThan(first + 0.25 * (second - first));
    expect(kPerH.value).toBeLessThan(first + 0.75 * (second - first));
    expect(kPerH.u).toBeGreaterThan(0.3 * (second - first));
  });
});
