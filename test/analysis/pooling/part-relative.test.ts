import { expect, test } from "vitest";
import { interval95 } from "../../../analysis/estimate.ts";
import { intervalAt, intervalOf, probabilityAbove } from "../../../analysis/pooling/part-relative.ts";
import { poolCadr } from "../../../analysis/pooling/pool-cadr.ts";
import { tCdf, tQuantile } from "../../../analysis/student-t.ts";
import { membersOf } from "./members.ts";

test("is x ∓ t·u where nothing scales", () => {
  expect(intervalAt({ value: 5, u: 2, dof: 9, relativeU: 0 }, 2)).toEqual({ low: 1, high: 9 });
});

test("is x·e^∓tr where all of it does, r that of the logarithm of 1 + a normal error", () => {
  const { low, high } = intervalAt({ value: 200, u: 26, dof: 9, relativeU: 0.13 }, 2);
  const r = 0.13 * Math.sqrt(1 + 2.5 * 0.13 ** 2);
  expect(low).toBeCloseTo(200 * Math.exp(-2 * r), 10);
  expect(high).toBeCloseTo(200 * Math.exp(2 * r), 10);
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

/**
 * Coverage when one laboratory is off by a factor `off`(z), z standard normal, and so is the next: over 2 000 equally likely z
 * of the first, the probability of the second is exact.
 */
function coverage(off: (z: number) => number, zOf: (factor: number) => number) {
  const spread = { relative: 0.13, dof: Infinity, source: "learnt" } as const;
  const many = 2000;
  const below = (end: number) => tCdf(zOf(Math.max(1e-9, end / 240)), Infinity);
  const share = { next: 0, nextPlain: 0, mean: 0, meanPlain: 0 };
  for (let i = 0; i < many; i++) {
    const k = 8 * off(tQuantile((i + 0.5) / many, Infinity));
    const pooled = poolCadr(membersOf({ k, u: 1e-6, volumeM3: { value: 30, u: 0, dof: Infinity } }), spread);
    const plain = { mean: interval95(pooled), next: interval95(pooled.prediction) };
    share.next += (below(pooled.prediction.high) - below(pooled.prediction.low)) / many;
    share.nextPlain += (below(plain.next.high) - below(plain.next.low)) / many;
    share.mean += Number(pooled.low <= 240 && 240 <= pooled.high) / many;
    share.meanPlain += Number(plain.mean.low <= 240 && 240 <= plain.mean.high) / many;
  }
  return share;
}

const within = (share: number, from: number, to: number) => {
  expect(share).toBeGreaterThanOrEqual(from);
  expect(share).toBeLessThanOrEqual(to);
};

test("the truth and another laboratory lie inside with 95 %, inside x ± t·u with less: factors 1 + sz", () => {
  const { next, nextPlain, mean, meanPlain } = coverage(
    (z) => 1 + 0.13 * z,
    (factor) => (factor - 1) / 0.13,
  );
  within(next, 0.949, 0.956);
  within(mean, 0.949, 0.953);
  within(nextPlain, 0.936, 0.941);
  within(meanPlain, 0.934, 0.938);
});

test("no less where the factors are e^sz", () => {
  const { next, mean } = coverage(
    (z) => Math.exp(0.13 * z),
    (factor) => Math.log(factor) / 0.13,
  );
  within(next, 0.95, 0.961);
  within(mean, 0.95, 0.957);
});
