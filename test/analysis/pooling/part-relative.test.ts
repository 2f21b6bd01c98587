import { expect, test } from "vitest";
import { interval95 } from "../../../analysis/estimate.ts";
import { intervalAt, intervalOf, probabilityAbove } from "../../../analysis/pooling/part-relative.ts";
import { poolCadr } from "../../../analysis/pooling/pool-cadr.ts";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { membersOf } from "./members.ts";

test("is x ∓ t·u where nothing scales, and x·e^∓tr where all of it does", () => {
  expect(intervalAt({ value: 5, u: 2, dof: 9, relativeU: 0 }, 2)).toEqual({ low: 1, high: 9 });
  const log = intervalAt({ value: 200, u: 26, dof: 9, relativeU: 0.13 }, 2);
  expect(log.low).toBeCloseTo(200 * Math.exp(-0.26), 10);
  expect(log.high).toBeCloseTo(200 * Math.exp(0.26), 10);
});

test.each([
  [200, 30, 0.13],
  [200, 26, 0.13],
  [3, 4, 0.2],
  [-3, 4, 0.2],
  [0, 4, 0.2],
  [50, 10, 0],
])(
  "%d ± %d, %d of it relative: the truth is over the low end with 97.5 %, over the high end with 2.5 %",
  (value, u, relativeU) => {
    const estimate = { value, u, dof: 8.7, relativeU };
    const { low, high } = intervalOf(estimate);
    expect(probabilityAbove(estimate, low)).toBeCloseTo(0.975, 9);
    expect(probabilityAbove(estimate, high)).toBeCloseTo(0.025, 9);
    expect(probabilityAbove(estimate, value)).toBeCloseTo(0.5, 9);
  },
);

test("a rate that is a share of itself in error is surely above 0 and below", () => {
  const sure = { value: 200, u: 26, dof: 9, relativeU: 0.13 };
  expect(probabilityAbove(sure, 0)).toBe(1);
  expect(probabilityAbove(sure, -5)).toBe(1);
});

test("another laboratory lies inside the prediction from one with 95 %, inside x ± t·u with less", () => {
  const random = createRandom(20261126);
  const spread = { relative: 0.13, dof: 1e9, source: "learnt" } as const;
  const rounds = 40_000;
  let [held, plain, mean, meanPlain] = [0, 0, 0, 0];
  for (let i = 0; i < rounds; i++) {
    const k = 8 * (1 + 0.13 * random.normal());
    const there = 240 * (1 + 0.13 * random.normal());
    const [member] = membersOf({
      k: k + 0.05 * random.normal(),
      u: 0.05,
      volumeM3: { value: 30, u: 1e-6, dof: Infinity },
    });
    const pooled = poolCadr([member!], spread);
    const inside = ({ low, high }: { low: number; high: number }, y: number) =>
      low <= y && y <= high ? 1 / rounds : 0;
    held += inside(pooled.prediction, there);
    plain += inside(interval95(pooled.prediction), there);
    mean += inside(pooled, 240);
    meanPlain += inside(interval95(pooled), 240);
  }
  expect(held).toBeGreaterThan(0.944); // standard error 0.0011
  expect(held).toBeLessThan(0.956);
  expect(plain).toBeLessThan(0.942);
  expect(mean).toBeGreaterThan(0.941);
  expect(mean).toBeLessThan(0.956);
  expect(meanPlain).toBeLessThan(0.938);
});
