import { describe, expect, test } from "vitest";
import { cleanAirDeliveryRate, type RateDifference } from "../../analysis/clean-air-delivery-rate.ts";
import { type Estimate, interval95 } from "../../analysis/estimate.ts";
import { checkedRate } from "../../analysis/interval-check.ts";
import { MOST_DRAWS, monteCarloInterval } from "../../analysis/monte-carlo-interval.ts";

const V: Estimate = { value: 30, u: 0.3, dof: Infinity };
const exact = (value: number): Estimate => ({ value, u: 0, dof: Infinity });
const rates = (totalPerH: Estimate, naturalPerH: Estimate, more: Partial<RateDifference> = {}): RateDifference => ({
  totalPerH,
  naturalPerH,
  covariance: 0,
  others: [],
  ...more,
});
const normal = (value: number, u: number): Estimate => ({ value, u, dof: Infinity });
/** Mean ends of ten times 100 000 draws: an end is then known to 0.2 % of the half-width. */
function draws(volume: Estimate, of: RateDifference) {
  const drawn = Array.from({ length: 10 }, (_, i) => monteCarloInterval(volume, of, 7919 * i, MOST_DRAWS));
  const mean = (values: number[]) => values.reduce((a, b) => a + b, 0) / values.length;
  return { low: mean(drawn.map((d) => d.lowM3PerH)), high: mean(drawn.map((d) => d.highM3PerH)) };
}

describe("JCGM 101 agrees with GUM within 2 % of the half-width where u is small and its dof are many, or one part leads", () => {
  const small: Record<string, [Estimate, RateDifference]> = {
    "the fit of the total dominates": [V, rates({ value: 5, u: 0.2, dof: 60 }, { value: 0.3, u: 0.02, dof: 40 })],
    "the volume dominates": [{ ...V, u: 1.5 }, rates({ value: 5, u: 0.05, dof: 30 }, { value: 0.3, u: 0.02, dof: 9 })],
    "few dof of one part": [V, rates({ value: 6.3, u: 0.25, dof: 7 }, { value: 0.3, u: 0.005, dof: 9 })],
    "shared background": [
      V,
      rates({ value: 4, u: 0.1, dof: 200 }, { value: 0.8, u: 0.15, dof: 200 }, { covariance: 0.009 }),
    ],
    "counters and a finding": [
      V,
      rates(
        { value: 8, u: 0.1, dof: 50 },
        { value: 0.5, u: 0.03, dof: 50 },
        {
          others: [
            { source: "counters", u: 0.05, dof: 60 },
            { source: "coagulation", u: 0.02, dof: 8 },
          ],
        },
      ),
    ],
  };
  test.each(Object.entries(small))("%s", (_, [volume, of]) => {
    const gum = interval95(cleanAirDeliveryRate(volume, of).cadrM3PerH);
    const half = (gum.high - gum.low) / 2;
    const drawn = draws(volume, of);
    expect(Math.abs(drawn.low - gum.low) / half).toBeLessThan(0.02);
    expect(Math.abs(drawn.high - gum.high) / half).toBeLessThan(0.02);
  });
});

describe("where u is large draws show what first order leaves out", () => {
  test.each([
    [0.3, 0.3],
    [0.5, 0.25],
    [0.25, 0.6],
  ])("a product of normals of relative u %s and %s, against its integrated distribution", (rV, rK) => {
    const volume = normal(30, 30 * rV);
    const drawn = draws(volume, rates(normal(4, 4 * rK), exact(0)));
    const half = 1.96 * 120 * Math.hypot(rV, rK);
    expect(Math.abs(drawn.low - productQuantile(0.025, volume, normal(4, 4 * rK))) / half).toBeLessThan(0.02);
    expect(Math.abs(drawn.high - productQuantile(0.975, volume, normal(4, 4 * rK))) / half).toBeLessThan(0.02);
    const gum = interval95(cleanAirDeliveryRate(volume, rates(normal(4, 4 * rK), exact(0))).cadrM3PerH);
    expect((drawn.high - gum.high) / half).toBeGreaterThan(0.05); // the product leans to the right
    expect((drawn.low - gum.low) / half).toBeGreaterThan(0.05);
  });

  test("a difference of two means of 7 readings each needs Behrens' and Fisher's factor, not Welch's", () => {
    // d(0.975) = 2.435 at 6 and 6 dof and 45°: Fisher and Yates' Table VI, from memory. Welch's 12 dof give 2.179.
    const drawn = draws(exact(1), rates({ value: 1, u: Math.SQRT1_2, dof: 6 }, { value: 0, u: Math.SQRT1_2, dof: 6 }));
    expect(Math.abs((drawn.high - drawn.low) / 2 / 2.435 - 1)).toBeLessThan(0.015);
  });
});

test("a single t keeps its own quantile, t₀.₉₇₅(3) = 3.182 (GUM Table G.2)", () => {
  const drawn = draws(exact(1), rates({ value: 0, u: 1, dof: 3 }, exact(0)));
  expect(Math.abs(drawn.high / 3.182 - 1)).toBeLessThan(0.02);
  expect(Math.abs(drawn.low / -3.182 - 1)).toBeLessThan(0.02);
});

test("the same seed draws the same, another seed another; more draws than allowed are refused", () => {
  const of = rates(normal(4, 1), normal(0.3, 0.1));
  expect(monteCarloInterval(V, of, 5)).toEqual(monteCarloInterval(V, of, 5));
  expect(monteCarloInterval(V, of, 5)).not.toEqual(monteCarloInterval(V, of, 6));
  expect(() => monteCarloInterval(V, of, 5, MOST_DRAWS + 1)).toThrow(RangeError);
});

describe("an interval is checked", () => {
  const wideRate = rates({ value: 3, u: 0.8, dof: 6 }, { value: 1, u: 0.8, dof: 6 });

  test("and widened until it reaches what the draws reach, with its dof as they were", () => {
    const plain = cleanAirDeliveryRate(V, wideRate);
    const { rate, monteCarlo, finding } = checkedRate(V, wideRate, "abc");
    const { low, high } = interval95(rate.cadrM3PerH);
    expect(finding).toMatchObject({ code: "interval-checked" });
    expect(finding!.value!).toBeGreaterThan(0.05);
    expect(Math.min(monteCarlo!.lowM3PerH - low, high - monteCarlo!.highM3PerH)).toBeCloseTo(0, 9);
    expect(rate.cadrM3PerH.dof).toBeCloseTo(plain.cadrM3PerH.dof, 9);
    const part = rate.budget.find(({ source }) => source === "interval-checked")!;
    expect(part.u).toBeCloseTo(finding!.effectM3PerH!, 9);
  });

  test("only where a relative u is over 20 %, and only where there is a seed", () => {
    const narrow = rates({ value: 5, u: 0.2, dof: 6 }, { value: 0.3, u: 0.2, dof: 6 });
    expect(checkedRate(V, narrow, "abc")).toMatchObject({ monteCarlo: null, finding: null });
    expect(checkedRate(V, wideRate, undefined)).toMatchObject({ monteCarlo: null, finding: null });
    expect(checkedRate({ ...V, u: 7 }, narrow, "abc").monteCarlo).not.toBeNull();
  });

  test("and left alone where it reaches as far", () => {
    const many = rates(normal(3, 0.8), normal(1, 0.3));
    const { rate, monteCarlo, finding } = checkedRate(V, many, "abc");
    expect(monteCarlo).not.toBeNull();
    expect(finding).toBeNull();
    expect(rate).toEqual(cleanAirDeliveryRate(V, many));
  });
});

/** Quantile of X·Y, X and Y normal: P(XY ≤ z) = ∫φ(x)·P(Y ≤ z/x) dx by the midpoint rule, bisected for z. */
function productQuantile(p: number, x: Estimate, y: Estimate): number {
  const cdf = (z: number) => {
    let sum = 0;
    const step = 1e-3;
    for (let a = -8 + step / 2; a < 8; a += step) {
      const at = x.value + a * x.u;
      const below = normalCdf((z / at - y.value) / y.u);
      sum += Math.exp((-a * a) / 2) * (at > 0 ? below : 1 - below) * step;
    }
    return sum / Math.sqrt(2 * Math.PI);
  };
  let [low, high] = [-1e4, 1e4];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (cdf(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Φ(z) by its series (Abramowitz and Stegun 26.2.10). */
function normalCdf(z: number): number {
  if (Math.abs(z) > 8) return z > 0 ? 1 : 0;
  let term = z;
  let sum = z;
  for (let n = 1; Math.abs(term) > 1e-17 * Math.abs(sum) && n < 300; n++) {
    term *= (z * z) / (2 * n + 1);
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
}
