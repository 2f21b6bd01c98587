import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import type { BandResult } from "../../analysis/analysis.ts";
import { lastingFall } from "../../analysis/lasting-fall.ts";
import { poisson } from "../../analysis/simulate/poisson.ts";
import { createRandom } from "../../analysis/simulate/random.ts";
import type { Channel, Role } from "../../analysis/trial.ts";
import { decay, everyS } from "./simulated-decay.ts";
import { channelOf, runOf, trialOf } from "./trial-of.ts";

const TRIALS = 40;
const [K_NATURAL, K_TOTAL] = [1.5, 6.5];

/** Particles of 5–10 µm: four a reading at the peak; raw counts, or numbers of a counter that prints finer than it counts. */
function seen(number: number, quantity: "raw" | "number", startCounts: number): BandResult | undefined {
  const random = createRandom(number, 9);
  const perUnit = quantity === "raw" ? 1 : 10;
  const run = (index: number, role: Role, kPerH: number, lengthS: number) => {
    const tS = everyS(10, lengthS);
    const truth = role === "background" ? () => 0.02 : decay(startCounts, kPerH, 0.02);
    const values = tS.map((t) => {
      const perReading = poisson(random, truth(t)) / perUnit;
      return quantity === "raw" ? perReading : Number((perReading * (1 + 0.01 * random.normal())).toFixed(2));
    });
    const more: Partial<Channel> = { id: "n", quantity, unit: "1", fromUm: 5, toUm: 10, cumulative: "none" };
    return runOf(index, role, tS, [channelOf(values, more)]);
  };
  const runs = [run(0, "background", 0, 600), run(1, "natural", K_NATURAL, 2700), run(2, "total", K_TOTAL, 1800)];
  return analyseTrial(trialOf(runs)).results.find(({ band }) => band.name === "5-11");
}

const numbers = Array.from({ length: TRIALS }, (_, i) => i + 1);

describe("few counts a reading", () => {
  test("a decay is followed down to its last counts: none is refused, and the truth lies within 2u", () => {
    const results = numbers.map((number) => seen(number, "raw", 4));
    expect(results.filter((r) => r === undefined)).toEqual([]);
    const held = results.filter((r) => {
      const { value, u } = r!.kDifferencePerH;
      return Math.abs(value - (K_TOTAL - K_NATURAL)) < 2.1 * u;
    });
    expect(held.length).toBeGreaterThanOrEqual(0.88 * TRIALS);
    const lengths = results.map((r) => r!.total.window.toS).sort((a, b) => a - b);
    expect(lengths[TRIALS / 2]).toBeGreaterThan(1200);
  });

  test("the scatter of counts is not taken for a lack of fit", () => {
    const alarms = (["raw", "number"] as const).map(
      (quantity) =>
        numbers.filter((number) => seen(number, quantity, 12)?.findings.some(({ code }) => code === "lack-of-fit"))
          .length,
    );
    for (const count of alarms) expect(count).toBeLessThanOrEqual(0.08 * TRIALS);
  });
});

describe("a lasting fall", () => {
  const readings = (values: readonly number[], quantity: "raw" | "mass") => ({
    tS: everyS(10, 10 * (values.length - 1)),
    values: Float64Array.from(values),
    clipped: new Uint8Array(values.length),
    stepQ: 1,
    intervalS: 10,
    quantity,
  });
  const dipping = [90, 80, 70, 0, 0, 0, 60, 50, 42, 35, 30, 25, 21, 17, 14, 12, 9, 8, 7, 6, 5];

  test("is none where readings come back, and begins where they do not", () => {
    expect(lastingFall(readings(dipping, "mass"), 10)).toBe(16);
    expect(lastingFall(readings(dipping.slice(0, 16), "mass"), 10)).toBe(-1);
  });

  test("of few counts is told by their mean", () => {
    const counts = [4, 3, 3, 1, 0, 0, 1, 0, 0, 2, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0];
    expect(lastingFall(readings(counts, "raw"), 0.04)).toBe(13);
    expect(lastingFall(readings(counts, "mass"), 0.04)).toBeLessThan(8);
  });
});
