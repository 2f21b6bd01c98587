import { describe, expect, test } from "vitest";
import { addColumn, type FittedShape } from "../../../analysis/added-column.ts";
import { deadTimeBias } from "../../../analysis/dead-time-bias.ts";
import { decayCurvature } from "../../../analysis/decay-curvature.ts";
import { lagBias } from "../../../analysis/decay-lag.ts";
import { scoreTestP } from "../../../analysis/score-test.ts";
import { tCdf } from "../../../analysis/student-t.ts";
import { lagging } from "./made-trials.ts";

const K = 5;
/** Half an hour, a reading a minute, white noise, nothing in the background: where least squares is the line through ln C. */
function shapeOf(truth: (tS: number) => number): FittedShape {
  const tHours = Float64Array.from({ length: 31 }, (_, i) => i / 60);
  return {
    data: { tHours, values: tHours.map((t) => truth(3600 * t)), perBlock: 1, stepQ: 0 },
    at: { lnA: Math.log(1000), kPerH: K, background: 0 },
    noise: { sigma: 1e-9, tauH: 0.01, white: 0.01, countingQ: 0 },
    prior: () => ({ mean: 0, sd: 1e-6 }),
  };
}

const exponential = (tS: number) => 1000 * Math.exp((-K * tS) / 3600);

describe("a column added to a fit", () => {
  test("finds what was put in, and what leaving it out does to k", () => {
    const bend = 0.04;
    const shape = shapeOf((tS) => exponential(tS) * (1 + bend * (tS / 3600) ** 2));
    const found = addColumn(shape, (t) => t * t)!;
    expect(found.value).toBeCloseTo(bend, 10);
    // A parabola over [0, T] has the line's slope T: k comes out lower by c·T.
    expect(found.kPerUnit).toBeCloseTo(-0.5, 10);
    expect(decayCurvature(shape, 0.5, 28)!.halvesApartPerH).toBeCloseTo(bend * 0.5, 10);
  });

  test("is tested as regression with it would: s² = t²(ν+1)/(ν+t²)", () => {
    for (const [t, dof] of [
      [2, 7],
      [3.5, 4],
      [1, 60],
    ] as const) {
      const s = t * Math.sqrt((dof + 1) / (dof + t * t));
      expect(scoreTestP({ value: -s, u: 1 }, dof)).toBeCloseTo(1 - tCdf(t, dof), 10);
    }
    expect(scoreTestP({ value: 3, u: 1 }, 4)).toBe(0);
    expect(scoreTestP({ value: 1.96, u: 1 }, Infinity)).toBeCloseTo(0.025, 4);
  });
});

// Computed independently of this project: lines through ln C over 30 min with a reading a minute.
test.each([
  [60, 4.95],
  [120, 4.836],
])("a lag of %d s: 5 /h reads %d", (lagS, reads) => {
  const bias = lagBias(shapeOf(lagging(1000, K, lagS, 0)), lagS, 0);
  expect(bias / (reads - K)).toBeGreaterThan(0.9);
  expect(bias / (reads - K)).toBeLessThan(1.15); // to first order in kτ: rather too much than too little
});

test.each([
  [0.05, 4.9135],
  [0.1, 4.8224],
  [0.2, 4.6239],
])("dead time that takes %d of the start: 5 /h reads %d", (loss, reads) => {
  const crowding = Math.log(1 - loss) / Math.log(0.9);
  expect(Math.abs(deadTimeBias(K, 0.5, crowding) / (reads - K) - 1)).toBeLessThan(0.03);
});
