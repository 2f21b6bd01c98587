import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import type { Role, Run } from "../../analysis/trial.ts";
import { asCounted, everyS, QUIET, seededNoise } from "./simulated-decay.ts";
import { background, CLEAN, codes, massOf, natural, phaseRun, total } from "./test-runs.ts";
import { channelOf, runOf, trialOf } from "./trial-of.ts";

describe("refusals and findings", () => {
  const only = (runs: Run[]) => analyseTrial(trialOf(runs)).refusals.map(({ code }) => code);

  test("a flat log, too few readings, less than a halving, a rising one", () => {
    const tS = everyS(10, 1800);
    const flat = runOf(0, "total", tS, [channelOf(tS.map(() => 40))]);
    expect(only([flat])).toContain("no-peak");
    const short = total({ series: { ...total().series, cropToS: 70 } });
    expect(only([short])).toContain("too-short");
    const slow = phaseRun(0, "total", 0.3, 0, 5);
    expect(only([slow])).toContain("less-than-one-halving");
    const rising = runOf(0, "total", tS, [channelOf(tS.map((t) => t + 10))]);
    expect(analyseTrial(trialOf([rising])).results).toEqual([]);
    expect(only([rising]).length).toBeGreaterThan(0);
  });

  test("a cleaner slower than the natural loss is reported below 0, unclipped", () => {
    const analysis = analyseTrial(
      trialOf([background(), phaseRun(1, "natural", 2.2, CLEAN, 6), phaseRun(2, "total", 1.8, CLEAN, 7)]),
    );
    expect(massOf(analysis).cadrM3PerH.value).toBeLessThan(0);
    expect(codes(analysis)).toContain("no-effect");
  });

  test("a unit that slows down little by little has halves that differ, and pays for it", () => {
    const tS = everyS(10, 1800);
    // From 7 to 3 1/h: halves of 6 and 4.
    const slowing = (t: number) => 1000 * Math.exp(-(7 * t - (2 * t * t) / 1800) / 3600);
    const run = runOf(2, "total", tS, [channelOf(asCounted(tS, slowing, QUIET, seededNoise(8)))]);
    const analysis = analyseTrial(trialOf([background(), natural(), run]));
    const uneven = massOf(analysis).findings.find(({ code }) => code === "uneven-decay")!;
    expect(uneven.effectM3PerH! / 30).toBeCloseTo((6 - 4) / Math.sqrt(12), 0);
  });

  test("nothing sent, nothing known: still a refusal and never a throw", () => {
    expect(analyseTrial(trialOf([])).refusals).toHaveLength(1);
    expect(only([runOf(0, "full_log", new Float64Array(0), [])])).toContain("no-peak");
    expect(only([total({ counter: "c9" })])).toEqual(["counters-disagree"]);
  });

  test("no number in an analysis is NaN or infinite, dof apart, whatever is sent", () => {
    const noise = seededNoise(21);
    const shapes: ((t: number) => number)[] = [
      () => 0,
      () => Number.NaN,
      () => 1e300 * noise.uniform(),
      (t) => 1e-300 * Math.exp(-t / 300),
      (t) => -t,
      (t) => (noise.uniform() < 0.5 ? Number.NaN : 900 * Math.exp(-t / 400)),
      () => 65535,
      () => Number.POSITIVE_INFINITY,
      (t) => 1000 * Math.exp(-t / 20),
      (t) => (t % 70 === 0 ? 1e9 : 500 * Math.exp(-t / 600)),
    ];
    const roles: Role[] = ["natural", "total", "full_log"];
    for (const shape of shapes) {
      for (const role of roles) {
        const tS = everyS(10, 1200);
        const analysis = analyseTrial(trialOf([background(), runOf(1, role, tS, [channelOf(tS.map(shape))]), total()]));
        expect(notFinite(analysis)).toEqual([]);
      }
    }
  });
});

/** Paths of the numbers that JSON could not carry, dof apart. */
function notFinite(value: unknown, path = ""): string[] {
  if (typeof value === "number") return Number.isFinite(value) || path.endsWith(".dof") ? [] : [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
}
