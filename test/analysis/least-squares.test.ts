import { describe, expect, test } from "vitest";
import { AnalysisError } from "../../analysis/analysis-error.ts";
import { type LeastSquaresProblem, leastSquares } from "../../analysis/least-squares.ts";
import nist from "../fixtures/nist-strd-nonlinear.fixture.json" with { type: "json" };
import { fewestAgreeingDigits } from "./agreeing-digits.ts";

type NistSet = (typeof nist.cases)[number];

/** Lanczos1 was made without noise: its residuals lie at the rounding of doubles, so only the parameters can be checked. */
const WITHOUT_NOISE = "Lanczos1";

describe("NIST StRD non-linear sets: certified values, from both starts", () => {
  test("all 27 are here", () => expect(nist.cases).toHaveLength(27));

  for (const set of nist.cases)
    for (const start of ["start1", "start2"] as const)
      test(`${set.name} from ${start}`, () => {
        const { certified } = set;
        const fit = leastSquares(problemOf(set, set[start]));
        expect(fewestAgreeingDigits(fit.parameters, certified.parameters)).toBeGreaterThan(6);
        expect(fit.dof).toBe(certified.degreesOfFreedom);
        if (set.name === WITHOUT_NOISE) return;
        expect(fewestAgreeingDigits(fit.standardDeviations, certified.standardDeviations)).toBeGreaterThan(6);
        expect(fewestAgreeingDigits([fit.residualSum], [certified.residualSumOfSquares])).toBeGreaterThan(9);
      });
});

describe("laws", () => {
  const set = nist.cases.find(({ name }) => name === "Misra1a")!;
  const fit = leastSquares(problemOf(set, set.start2));

  test("residuals divided by c: the same parameters and covariance, (JᵀJ)⁻¹ times c²", () => {
    const c = 7;
    const { residuals, jacobian, ...rest } = problemOf(set, set.start2);
    const divided = leastSquares({ ...rest, residuals: divide(residuals, c), jacobian: divide(jacobian, c) });
    expect(fewestAgreeingDigits(divided.parameters, [...fit.parameters])).toBeGreaterThan(9);
    expect(fewestAgreeingDigits(divided.covariance, [...fit.covariance])).toBeGreaterThan(8);
    const scaled = [...fit.unscaledCovariance].map((value) => value * c ** 2);
    expect(fewestAgreeingDigits(divided.unscaledCovariance, scaled)).toBeGreaterThan(8);
  });

  test("a parameter in another unit, by 1e9: the same path, so the same iterations and sum", () => {
    const { residuals, jacobian, count, start } = problemOf(set, set.start1);
    const inUnit = (b: Float64Array) => Float64Array.of(b[0]!, b[1]! * 1e-9);
    const other = leastSquares({
      count,
      start: [start[0]!, start[1]! * 1e9],
      residuals: (b, out) => residuals(inUnit(b), out),
      jacobian: (b, out) => {
        jacobian(inUnit(b), out);
        for (let i = count; i < 2 * count; i++) out[i]! *= 1e-9;
      },
    });
    expect(other.iterations).toBe(leastSquares(problemOf(set, set.start1)).iterations);
    expect(fewestAgreeingDigits([other.residualSum], [fit.residualSum])).toBeGreaterThan(9);
  });

  test("a start at the minimum stays there", () => {
    const again = leastSquares(problemOf(set, [...fit.parameters]));
    expect(again.iterations).toBeLessThanOrEqual(1);
    expect(fewestAgreeingDigits(again.parameters, [...fit.parameters])).toBeGreaterThan(9);
  });
});

describe("refuses instead of guessing", () => {
  const line = (residual: (a: number, b: number, i: number) => number, slopes: (i: number) => [number, number]) => ({
    count: 6,
    start: [1, 1],
    residuals: (b: Float64Array, out: Float64Array) => {
      for (let i = 0; i < 6; i++) out[i] = residual(b[0]!, b[1]!, i);
    },
    jacobian: (_: Float64Array, out: Float64Array) => {
      for (let i = 0; i < 6; i++) [out[i], out[6 + i]] = slopes(i);
    },
  });
  const refusal = (problem: LeastSquaresProblem) => {
    try {
      leastSquares(problem);
    } catch (error) {
      if (error instanceof AnalysisError) return error.code;
      throw error;
    }
    return "no refusal";
  };
  const straight = line(
    (a, b, i) => a + b * i - i * i,
    (i) => [1, i],
  );

  test("two parameters that only enter as their sum: singular", () =>
    expect(
      refusal(
        line(
          (a, b, i) => a + b - i,
          () => [1, 1],
        ),
      ),
    ).toBe("singular"));
  test("a parameter without effect: singular", () =>
    expect(
      refusal(
        line(
          (a, _, i) => a - i,
          () => [1, 0],
        ),
      ),
    ).toBe("singular"));
  test("no more residuals than parameters: singular", () =>
    expect(refusal({ ...straight, count: 2 })).toBe("singular"));
  test("a start outside the model: not-converged", () =>
    expect(
      refusal(
        line(
          () => Number.NaN,
          () => [1, 1],
        ),
      ),
    ).toBe("not-converged"));
  test("a slope that is not finite: not-converged", () =>
    expect(
      refusal(
        line(
          (a, b, i) => a + b * i - i * i,
          () => [1, Number.NaN],
        ),
      ),
    ).toBe("not-converged"));
  test("a slope of the wrong sign: not-converged", () =>
    expect(
      refusal(
        line(
          (a, b, i) => a + b * i - i * i,
          (i) => [-1, -i],
        ),
      ),
    ).toBe("not-converged"));
  test("no more iterations allowed: not-converged", () =>
    expect(refusal({ ...straight, maxIterations: 1 })).toBe("not-converged"));
  test("the same line, allowed to finish, has its closed form", () => {
    // y = i² at i = 0…5: slope 5, intercept −10/3, Σ r² = 112/3 (normal equations by hand).
    const fit = leastSquares(straight);
    expect(fewestAgreeingDigits(fit.parameters, [-10 / 3, 5])).toBeGreaterThan(12);
    expect(fit.residualSum).toBeCloseTo(112 / 3, 10);
    expect(fit.unscaledCovariance[3]).toBeCloseTo(1 / 17.5, 12);
  });
});

/** The fixture's own expressions of the model and of its derivatives, compiled. */
function problemOf(set: NistSet, start: readonly number[]): LeastSquaresProblem {
  const count = set.data.length;
  const { exp, cos, sin, atan, pow, log, PI } = Math;
  const surroundings = { exp, cos, sin, atan, pow, log, pi: PI };
  const names = [...set.parameters, ...set.predictors, ...Object.keys(surroundings)];
  const compile = (expression: string) => {
    const compiled: (...values: unknown[]) => number = new Function(...names, `return ${expression};`) as never;
    return (b: Float64Array, i: number) => compiled(...b, ...predictors[i]!, ...Object.values(surroundings));
  };
  const predictors = set.data.map((row) => set.predictors.map((name) => row[set.columns.indexOf(name)]!));
  const response = set.data.map(([y]) => (set.response === "log(y)" ? log(y!) : y!));
  const model = compile(set.model);
  const gradient = set.gradient.map(compile);
  return {
    count,
    start,
    residuals: (b, out) => {
      for (let i = 0; i < count; i++) out[i] = model(b, i) - response[i]!;
    },
    jacobian: (b, out) => {
      for (const [j, slope] of gradient.entries()) for (let i = 0; i < count; i++) out[j * count + i] = slope(b, i);
    },
  };
}

function divide(write: LeastSquaresProblem["residuals"], by: number): LeastSquaresProblem["residuals"] {
  return (b, out) => {
    write(b, out);
    for (let i = 0; i < out.length; i++) out[i]! /= by;
  };
}
