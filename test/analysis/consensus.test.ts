import { expect, test } from "vitest";
import { consensus } from "../../analysis/consensus.ts";
import { createRandom } from "../../analysis/simulate/random.ts";

// BCG vaccine trials (Colditz et al. 1994), log risk ratios and variances; Paule–Mandel τ² 0.318068 (recomputed).
const Y = [
  -0.8893113339202057, -1.5853886572014306, -1.3480731482996928, -1.4415511900213054, -0.2175473222112957,
  -0.7861155858188641, -1.6208982235983922, 0.01195233352384116, -0.4694176487381487, -1.3713448034727844,
  -0.33935882833839026, 0.44591340057137846, -0.017313948216879593,
];
const V = [
  0.32558476500396133, 0.19458112139814387, 0.4153679653679654, 0.020010031902247573, 0.05121017216963086,
  0.0069056184559087574, 0.22301724757231517, 0.00396157929781773, 0.05643421046324896, 0.07302479361302891,
  0.01241221397155972, 0.5325058452001528, 0.0714046596839863,
];

test("Paule–Mandel between-variance of the BCG trials", () => {
  const { between, weights, estimate } = consensus(
    Y.map((value, i) => ({ value, u: Math.sqrt(V[i]!), dof: Infinity })),
  );
  const tau2 = between.u ** 2 / weights.reduce((sum, w) => sum + w * w, 0);
  expect(tau2).toBeCloseTo(0.318068, 6);
  expect(weights.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
  expect(estimate.u).toBeCloseTo(1 / Math.sqrt(V.reduce((sum, v) => sum + 1 / (v + tau2), 0)), 10);
});

test("one estimate stands for itself; two that agree are averaged by 1/u² without spread", () => {
  const one = { value: 3, u: 0.1, dof: 7 };
  expect(consensus([one]).estimate).toEqual(one);
  const { estimate, between } = consensus([
    { value: 3, u: 0.1, dof: 10 },
    { value: 3.1, u: 0.2, dof: 10 },
  ]);
  expect(between.u).toBe(0);
  expect(estimate.value).toBeCloseTo(3.02, 12);
  expect(estimate.u).toBeCloseTo(0.1 * Math.sqrt(0.8), 12);
  expect(estimate.dof).toBeCloseTo(1 / (0.8 ** 2 / 10 + 0.2 ** 2 / 10), 10);
});

test("two that differ beyond their u lend the mean their spread, with few degrees of freedom", () => {
  const { estimate, between } = consensus([
    { value: 4, u: 0.01, dof: 50 },
    { value: 5, u: 0.01, dof: 50 },
  ]);
  expect(estimate.value).toBeCloseTo(4.5, 6);
  expect(estimate.u).toBeCloseTo(0.5, 3);
  expect(between.dof).toBe(3);
  expect(estimate.dof).toBeLessThan(3.1);
});

test("counters that differ by chance are told apart from those that differ: the Q test holds its 5 %", () => {
  const random = createRandom(20261125);
  const share = (shift: number) => {
    let significant = 0;
    for (let i = 0; i < 4000; i++) {
      const pair = [0, shift].map((mean) => ({ value: mean + random.normal(), u: 1, dof: Infinity }));
      if (consensus(pair).between.significant) significant++;
    }
    return significant / 4000;
  };
  expect(share(0)).toBeGreaterThan(0.04);
  expect(share(0)).toBeLessThan(0.065);
  expect(share(6)).toBeGreaterThan(0.95);
});
