import { describe, expect, test } from "vitest";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { probabilityOfReaching, sureCadr, unitsNeeded } from "../../../analysis/sizing/units-needed.ts";

const sure = (value: number) => ({ value, u: 0, dof: Infinity, relativeU: 0 });
/** A rate known to 13 %, as another laboratory would find it. */
const relative = (value: number, share: number, dof: number) => ({ value, u: share * value, dof, relativeU: share });

describe("units needed", () => {
  test("one unit of 180 m³/h for 150: scipy, stats.t.cdf(ln(180/150)/(0.13·√(1+2.5·0.13²)), 8)", () => {
    expect(probabilityOfReaching(1, relative(180, 0.13, 8), sure(150))).toBeCloseTo(0.896610942138, 9);
  });

  test("two of them for 261.31 in a room known to 2 %: scipy, stats.norm.cdf", () => {
    const needed = { ...relative(261.31, 0.02, Infinity) };
    expect(probabilityOfReaching(2, relative(180, 0.13, Infinity), needed)).toBeCloseTo(0.991458176755, 9);
  });

  test("is the fewest that is sure enough: by hand", () => {
    const prediction = relative(180, 0.13, 8);
    expect(unitsNeeded(prediction, sure(150), 0.8, 20)).toBe(1);
    expect(unitsNeeded(prediction, sure(150), 0.9, 20)).toBe(2);
    expect(unitsNeeded(prediction, sure(1000), 0.5, 20)).toBe(6); // 1000/180 = 5.6
    expect(unitsNeeded(prediction, sure(1000), 0.5, 5)).toBeNull();
    expect(unitsNeeded(prediction, sure(-10), 0.9, 20)).toBe(1);
    expect(unitsNeeded(relative(-5, 0.5, 8), sure(150), 0.9, 20)).toBeNull();
    expect(() => unitsNeeded(prediction, sure(150), 0.3, 20)).toThrow(RangeError);
  });

  test("is N over what one unit surely delivers, where the room is known", () => {
    for (const sureness of [0.5, 0.8, 0.9, 0.95])
      for (const need of [90, 150, 400, 777]) {
        const prediction = { value: 180, u: 40, dof: 11, relativeU: 0.13 };
        const n = Math.ceil(need / sureCadr(prediction, sureness));
        expect(unitsNeeded(prediction, sure(need), sureness, 99)).toBe(n);
      }
  });

  test("the probability is the share of simulated rooms that reach the target", () => {
    const random = createRandom(20261128);
    const prediction = { value: 180, u: Math.hypot(0.13 * 180, 12), dof: Infinity, relativeU: 0.13 };
    const needed = { value: 300, u: Math.hypot(0.05 * 300, 20), dof: Infinity, relativeU: 0.05 };
    const rounds = 40_000;
    let reached = 0;
    for (let i = 0; i < rounds; i++) {
      const one = 180 * (1 + 0.13 * random.normal()) + 12 * random.normal();
      reached += Number(2 * one > 300 * (1 + 0.05 * random.normal()) + 20 * random.normal()) / rounds;
    }
    expect(Math.abs(probabilityOfReaching(2, prediction, needed) - reached)).toBeLessThan(0.012); // standard error 0.002
  });
});
