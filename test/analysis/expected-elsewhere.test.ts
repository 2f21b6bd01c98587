import { describe, expect, test } from "vitest";
import { interval95 } from "../../analysis/estimate.ts";
import { ASSUMED_SPREAD, expectedElsewhere } from "../../analysis/expected-elsewhere.ts";
import { createRandom } from "../../analysis/simulate/random.ts";

describe("where another laboratory's result is expected", () => {
  const known = { relative: 0.13, dof: Infinity, source: "learnt" } as const;

  test("a claim of 95 % holds over simulated pairs of laboratories of known spread", () => {
    const random = createRandom(20261125);
    const trials = 20_000;
    let held = 0;
    for (let i = 0; i < trials; i++) {
      const u = 8;
      const here = 250 * (1 + 0.13 * random.normal()) + u * random.normal();
      const there = 250 * (1 + 0.13 * random.normal());
      const { low, high } = expectedElsewhere({ value: here, u, dof: Infinity }, known);
      if (there >= low && there <= high) held++;
    }
    expect(held / trials).toBeGreaterThan(0.93); // τ is taken of the value observed, not of the unknown mean: 1 % is lost
    expect(held / trials).toBeLessThan(0.96);
  });

  test("is wider than the trial's own interval, and wider still while the spread is assumed", () => {
    const cadr = { value: 250, u: 8, dof: 20 };
    const width = ({ low, high }: { low: number; high: number }) => high - low;
    expect(width(expectedElsewhere(cadr, known))).toBeGreaterThan(width(interval95(cadr)));
    expect(width(expectedElsewhere(cadr, ASSUMED_SPREAD))).toBeGreaterThan(width(expectedElsewhere(cadr, known)));
  });

  test("without a spread is the trial's own interval", () => {
    const cadr = { value: -3, u: 4, dof: 11 };
    expect(expectedElsewhere(cadr, { ...known, relative: 0 })).toEqual(interval95(cadr));
  });
});
