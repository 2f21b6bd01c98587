import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import { asCounted, decay, everyS, QUIET, seededNoise } from "../simulated-decay.ts";
import { background, FLOOR, K_NATURAL, K_TOTAL, massOf } from "../test-runs.ts";
import { channelOf, runOf, trialOf } from "../trial-of.ts";

describe("smoothing that is not stated", () => {
  test("is not held against readings that exclude it, however little the natural run tells", () => {
    const alarms = Array.from({ length: 20 }, (_, i) => {
      const run = (index: number, role: "natural" | "total", kPerH: number, floor: number, lengthS: number) => {
        const tS = everyS(10, lengthS);
        const noise = seededNoise(100 * i + index);
        return runOf(index, role, tS, [channelOf(asCounted(tS, decay(1000, kPerH, floor), QUIET, noise))]);
      };
      const naturalRun = run(1, "natural", K_NATURAL, 5, 300);
      const totalRun = run(2, "total", K_TOTAL, FLOOR, 1800);
      const result = massOf(analyseTrial(trialOf([background(), naturalRun, totalRun])));
      expect(result.natural.kPerH.u).toBeGreaterThan(3 * result.total.kPerH.u);
      return result.findings.some(({ code }) => code === "smoothing-unstated");
    });
    expect(alarms.filter(Boolean).length).toBeLessThanOrEqual(4);
  });
});
