import { AnalysisError } from "./analysis-error.ts";
import { TangentPlane } from "./tangent-plane.ts";

export interface LeastSquaresProblem {
  /** Number m of residuals; more than there are parameters. */
  readonly count: number;
  readonly start: ArrayLike<number>;
  /** Writes r(θ) into `out`, each divided by its own standard deviation where these differ. NaN says "outside the model". */
  readonly residuals: (parameters: Float64Array, out: Float64Array) => void;
  /** Writes ∂r_i/∂θ_j into out[j·m + i]. */
  readonly jacobian: (parameters: Float64Array, out: Float64Array) => void;
  readonly maxIterations?: number;
}

export interface LeastSquaresFit {
  readonly parameters: Float64Array;
  /** s²(JᵀJ)⁻¹ with s² = residualSum/dof; element (i, j) at j·n + i. */
  readonly covariance: Float64Array;
  /** (JᵀJ)⁻¹: the covariance where the residuals come divided by known standard deviations. */
  readonly unscaledCovariance: Float64Array;
  /** Square roots of the diagonal of `covariance`. */
  readonly standardDeviations: Float64Array;
  /** Σ r². */
  readonly residualSum: number;
  readonly dof: number;
  readonly iterations: number;
}

/**
 * General non-linear least squares: θ that makes Σ r_i(θ)² smallest, by the Levenberg–Marquardt method with a trust region
 * in scaled parameters (J. J. Moré, "The Levenberg-Marquardt algorithm: implementation and theory", 1978). Covariance by
 * linear propagation at the minimum. Checked against all 27 non-linear sets of NIST StRD.
 * @throws AnalysisError "not-converged", or "singular" where the residuals do not determine every parameter
 */
export function leastSquares(problem: LeastSquaresProblem): LeastSquaresFit {
  const { count, maxIterations = 2000 } = problem;
  const size = problem.start.length;
  if (!(count > size && size > 0)) throw new AnalysisError("singular", `${count} residuals for ${size} parameters`);
  let parameters = Float64Array.from(problem.start);
  let trial = new Float64Array(size);
  let residuals = new Float64Array(count);
  let trialResiduals = new Float64Array(count);
  const jacobian = new Float64Array(count * size);
  const step = new Float64Array(size);
  const plane = new TangentPlane(count, size);

  problem.residuals(parameters, residuals);
  let sum = sumOfSquares(residuals);
  if (!Number.isFinite(sum)) throw new AnalysisError("not-converged", "the model has no finite value at the start");
  let radius = 0;
  let lastPromised = Number.POSITIVE_INFINITY;
  for (let iteration = 0; iteration < maxIterations; iteration++) {
    problem.jacobian(parameters, jacobian);
    if (!Number.isFinite(sumOfSquares(jacobian)))
      throw new AnalysisError("not-converged", "the model's slope is not finite");
    plane.lay(jacobian, residuals, Math.sqrt(sum));
    const length0 = scaledLength(parameters, plane.scale);
    if (iteration === 0) radius = FIRST_RADIUS * (length0 || 1);
    const full = plane.stepLength(0);
    if (plane.offset <= OFFSET_AT_MINIMUM || full <= STEP_AT_MINIMUM * length0) return fitAt(iteration);

    for (;;) {
      const lambda = plane.damping(radius);
      const promised = plane.step(lambda, step) / sum;
      const length = plane.stepLength(lambda);
      for (let j = 0; j < size; j++) trial[j] = parameters[j]! + step[j]!;
      problem.residuals(trial, trialResiduals);
      const trialSum = sumOfSquares(trialResiduals);
      const kept = fall(residuals, trialResiduals) / sum / promised;
      if (!(kept >= 0.25)) radius = Math.min(radius, length) * shrink(sum, trialSum, promised);
      else if (kept >= 0.75 || lambda === 0) radius = Math.max(radius, 2 * length);
      const atRounding = lambda === 0 && promised <= ROUNDED_PROMISE && trialSum <= sum * (1 + ROUNDED_PROMISE);
      if (atRounding && !(promised < lastPromised)) return fitAt(iteration);
      if (atRounding) lastPromised = promised;
      if (atRounding || kept > 1e-4) {
        [parameters, trial] = [trial, parameters];
        [residuals, trialResiduals] = [trialResiduals, residuals];
        sum = trialSum;
        break;
      }
      if (radius > Number.EPSILON * length0) continue;
      if (full <= ROUNDED_STEP * length0) return fitAt(iteration);
      throw new AnalysisError("not-converged", "no step lowers the sum of squares");
    }
  }
  throw new AnalysisError("not-converged", `no minimum after ${maxIterations} iterations`);

  function fitAt(iterations: number): LeastSquaresFit {
    if (!(plane.inverseCondition > SINGULAR_BELOW)) throw new AnalysisError("singular");
    const dof = count - size;
    const unscaledCovariance = plane.inverseNormal();
    const covariance = unscaledCovariance.map((value) => (value * sum) / dof);
    const standardDeviations = parameters.map((_, j) => Math.sqrt(covariance[j * size + j]!));
    return { parameters, covariance, unscaledCovariance, standardDeviations, residualSum: sum, dof, iterations };
  }
}

/** The first step may be as long as the start itself. Ten times that still reaches all NIST minima, a hundred times loses one. */
const FIRST_RADIUS = 1;
/** Share of the residual vector still in the tangent plane: at 1e-10 nothing is left to gain in double precision. */
const OFFSET_AT_MINIMUM = 1e-10;
/** The same for the Gauss-Newton step over the parameters, in scaled length. */
const STEP_AT_MINIMUM = 1e-13;
/**
 * A relative fall of the sum so small that rounding may hide it (within 1e-5·√dof of their own u of the minimum). The plane
 * still sees it: full steps are then taken as long as each promises less than the one before.
 */
const ROUNDED_PROMISE = 1e-10;
/** Residuals that are nothing but rounding never fall; a step in the ninth digit is then the end. */
const ROUNDED_STEP = 1e-8;
/** Ratio of singular values of the scaled Jacobian below which its columns are dependent within double precision. */
const SINGULAR_BELOW = 1e-14;

/** Radius factor after a poor step, 0.1 to 0.5: where the parabola through both sums and the slope has its minimum. */
function shrink(sum: number, trialSum: number, promised: number): number {
  if (!Number.isFinite(trialSum)) return 0.1;
  const change = trialSum / sum - 1;
  return Math.min(0.5, Math.max(0.1, promised / (promised + change || 1) / 2));
}

/** Σ r² − Σ r'², written so that the difference of two nearly equal sums keeps its digits. */
function fall(before: Float64Array, after: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < before.length; i++) sum += (before[i]! - after[i]!) * (before[i]! + after[i]!);
  return sum;
}

function sumOfSquares(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value * value;
  return sum;
}

function scaledLength(parameters: Float64Array, scale: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < parameters.length; j++) sum += (parameters[j]! * scale[j]!) ** 2;
  return Math.sqrt(sum);
}
