import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apart, CASES, occasions, pairedRuns, resultOf } from "./generated-trial.ts";

/**
 * All have under 400 readings: more are averaged in blocks, and the mean of a curve is not the curve at its middle. Few
 * cases, for without noise the fit goes on for a thousand passes and more until rounding is all that is left.
 */
const FEW = { ...CASES, numRuns: 4 };

describe("a decay without noise gives its k to 1e-9", () => {
  test.each([
    ["in clean air", 0],
    ["above a background that was read", 5],
  ])("%s", (_, clean) => {
    fc.assert(
      fc.property(occasions, (occasion) => {
        const { total, natural, cadrM3PerH } = resultOf(pairedRuns({ ...occasion, clean }, false));
        const kTotal = occasion.kNatural + occasion.kAdded;
        expect(apart(total.kPerH.value, kTotal)).toBeLessThan(1e-9);
        expect(apart(natural.kPerH.value, occasion.kNatural)).toBeLessThan(1e-9);
        expect(apart(cadrM3PerH.value, 30 * occasion.kAdded)).toBeLessThan(1e-9);
      }),
      FEW,
    );
  });

  test("and without a reading of the background, of which there is none", () => {
    fc.assert(
      fc.property(occasions, (occasion) => {
        const runs = pairedRuns({ ...occasion, clean: 0 }, false).slice(1);
        expect(apart(resultOf(runs).cadrM3PerH.value, 30 * occasion.kAdded)).toBeLessThan(1e-9);
      }),
      FEW,
    );
  });
});
