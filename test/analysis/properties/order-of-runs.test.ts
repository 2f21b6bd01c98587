import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Run } from "../../../analysis/trial.ts";
import { CASES, largestDifference, type Occasion, occasions, phaseOf, resultOf } from "./generated-trial.ts";

const permutation = (n: number) => fc.shuffledSubarray([...Array(n).keys()], { minLength: n, maxLength: n });

describe("a result does not depend on the order", () => {
  test("of runs", () => {
    fc.assert(
      fc.property(occasions, permutation(6), (occasion, order) => {
        const runs = severalOfEach(occasion);
        const other = order.map((i) => runs[i]!);
        expect(largestDifference(resultOf(other), resultOf(runs))).toBeLessThan(1e-9);
      }),
      CASES,
    );
  });

  test("of runs without a background reading", () => {
    fc.assert(
      fc.property(occasions, permutation(4), (occasion, order) => {
        const runs = severalOfEach(occasion).filter(({ role }) => role !== "background");
        const other = order.map((i) => runs[i]!);
        expect(largestDifference(resultOf(other), resultOf(runs))).toBeLessThan(1e-9);
      }),
      CASES,
    );
  });
});

/** Two runs of each kind, of one occasion but with noise of their own, and k of the second natural a tenth higher. */
function severalOfEach(occasion: Occasion): Run[] {
  const second = { ...occasion, kNatural: 1.1 * occasion.kNatural };
  return [
    phaseOf(occasion, 0, "background"),
    phaseOf({ ...occasion, clean: 1.3 * occasion.clean }, 1, "background"),
    phaseOf(occasion, 2, "natural"),
    phaseOf(second, 3, "natural"),
    phaseOf(occasion, 4, "total"),
    phaseOf(occasion, 5, "total"),
  ];
}
