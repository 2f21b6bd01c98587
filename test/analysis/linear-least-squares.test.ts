import { describe, expect, test } from "vitest";
import { linearLeastSquares } from "../../analysis/linear-least-squares.ts";
import gumH3 from "../fixtures/gum-h3.fixture.json" with { type: "json" };
import nist from "../fixtures/nist-strd-linear.fixture.json" with { type: "json" };
import { fewestAgreeingDigits } from "./agreeing-digits.ts";

type NistSet = (typeof nist.cases)[number];

describe("NIST StRD linear sets: certified values", () => {
  for (const set of nist.cases)
    test(set.name, () => {
      const { certified } = set;
      const fit = linearLeastSquares(
        columnsOf(set),
        set.data.map(([y]) => y!),
      );
      expect(fewestAgreeingDigits(fit.coefficients, certified.coefficients)).toBeGreaterThan(13);
      expect(fit.dof).toBe(certified.degreesOfFreedom);
      // Wampler1 and Wampler2 are exact: their deviations are 0, against coefficients of 1 down to 1e-5.
      const digits = certified.residualStandardDeviation === 0 ? 14 : 12;
      expect(fewestAgreeingDigits(fit.standardDeviations, certified.standardDeviations)).toBeGreaterThan(digits);
      const s = [fit.residualStandardDeviation];
      expect(fewestAgreeingDigits(s, [certified.residualStandardDeviation])).toBeGreaterThan(digits);
    });
});

test("GUM H.3: thermometer line, JCGM 100:2008 Table H.6", () => {
  const { data, t0, published, recomputed } = gumH3;
  const fit = linearLeastSquares(
    [data.map(() => 1), data.map(([t]) => t! - t0)],
    data.map(([, b]) => b!),
  );
  const correlation = fit.covariance[1]! / (fit.standardDeviations[0]! * fit.standardDeviations[1]!);
  expect(fewestAgreeingDigits(fit.coefficients, [recomputed.y1, recomputed.y2])).toBeGreaterThan(12);
  expect(fewestAgreeingDigits(fit.standardDeviations, [recomputed.sY1, recomputed.sY2])).toBeGreaterThan(12);
  expect(fewestAgreeingDigits([correlation], [recomputed.correlation])).toBeGreaterThan(12);
  expect(fewestAgreeingDigits([fit.residualStandardDeviation], [recomputed.s])).toBeGreaterThan(12);
  expect(fit.coefficients[0]).toBeCloseTo(published.y1, 4);
  expect(fit.coefficients[1]).toBeCloseTo(published.y2, 5);
  expect(fit.standardDeviations[0]).toBeCloseTo(published.sY1, 4);
  expect(fit.standardDeviations[1]).toBeCloseTo(published.sY2, 5);
  expect(correlation).toBeCloseTo(published.correlation, 3);
  expect(fit.residualStandardDeviation).toBeCloseTo(published.s, 4);
  expect(fit.dof).toBe(published.degreesOfFreedom);
});

describe("refuses instead of guessing", () => {
  const singular = expect.objectContaining({ name: "AnalysisError", code: "singular" });
  test.each([
    [
      "a column twice another",
      [
        [1, 2, 3, 4],
        [2, 4, 6, 8],
      ],
      [1, 2, 3, 5],
    ],
    [
      "a sum of others",
      [
        [1, 1, 1, 1],
        [1, 2, 3, 4],
        [2, 3, 4, 5],
      ],
      [1, 2, 3, 5],
    ],
    ["a column of zeros", [[0, 0, 0]], [1, 2, 3]],
    [
      "no degree of freedom",
      [
        [1, 1],
        [1, 2],
      ],
      [1, 2],
    ],
    ["no column", [], [1, 2]],
    ["a column that is not finite", [[1, Number.NaN, 1]], [1, 2, 3]],
    ["a reading that is not finite", [[1, 2, 1]], [1, Number.NaN, 3]],
  ])("%s", (_, columns, response) => {
    expect(() => linearLeastSquares(columns, response)).toThrow(singular);
  });
  test("columns of unequal length", () => expect(() => linearLeastSquares([[1, 2]], [1, 2, 3])).toThrow(RangeError));
});

function columnsOf({ design, data }: NistSet): number[][] {
  const { degree, predictors, intercept } = design as { degree?: number; predictors?: number; intercept: boolean };
  const constant = intercept ? [data.map(() => 1)] : [];
  if (predictors) return [...constant, ...Array.from({ length: predictors }, (_, j) => data.map((row) => row[j + 1]!))];
  return [...constant, ...Array.from({ length: degree! }, (_, j) => data.map(([, x]) => x! ** (j + 1)))];
}
