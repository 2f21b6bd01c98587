import { AnalysisError } from "./analysis-error.ts";
import { CompensatedSum } from "./compensated-sum.ts";
import { log } from "./log.ts";
import { columnNorm, OrthogonalFactor } from "./orthogonal-factor.ts";

export interface LinearFit {
  readonly coefficients: Float64Array;
  readonly standardDeviations: Float64Array;
  /** s²(AᵀA)⁻¹; element (i, j) at j·n + i. */
  readonly covariance: Float64Array;
  readonly residuals: Float64Array;
  /** Σ r². */
  readonly residualSum: number;
  /** s = √(Σ r²/dof). */
  readonly residualStandardDeviation: number;
  readonly dof: number;
}

/**
 * Linear least squares min ‖y − A b‖², A given by its columns: Householder QR of the scaled columns, then refinement of b
 * and of the residuals together, with residuals summed in doubled precision (Å. Björck, "Iterative refinement of linear
 * least squares solutions", BIT 7, 1967), so that columns as alike as powers of one x still give nine digits. Weights: rows
 * of A and y divided by their standard deviations beforehand. Checked against the linear sets of NIST StRD.
 * @throws AnalysisError "singular" where the columns depend on each other or no degree of freedom is left
 */
export function linearLeastSquares(columns: readonly ArrayLike<number>[], response: ArrayLike<number>): LinearFit {
  const count = response.length;
  const size = columns.length;
  if (!(count > size && size > 0)) throw new AnalysisError("singular", `${count} readings for ${size} coefficients`);
  const matrix = new Float64Array(count * size);
  for (const [j, column] of columns.entries()) {
    if (column.length !== count) throw new RangeError(`column ${j} has ${column.length} rows for ${count} readings`);
    matrix.set(Float64Array.from(column), j * count);
  }
  const scale = scaleColumns(matrix, count, size);
  const factor = new OrthogonalFactor(count, size);
  factor.factorise(matrix);
  if (!(factor.inverseCondition > SINGULAR_BELOW)) throw new AnalysisError("singular");

  const { solution, residuals } = refine(factor, matrix, response);
  const coefficients = solution.map((value, j) => value / scale[j]!);
  const dof = count - size;
  const square = new CompensatedSum();
  for (const residual of residuals) square.addProduct(residual, residual);
  const residualSum = square.value;
  const covariance = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    const unit = new Float64Array(size);
    unit[j] = 1;
    const inverse = factor.solveUpper(factor.solveLower(unit));
    for (let i = 0; i < size; i++)
      covariance[j * size + i] = (inverse[i]! * residualSum) / (dof * scale[i]! * scale[j]!);
  }
  const standardDeviations = coefficients.map((_, j) => Math.sqrt(covariance[j * size + j]!));
  const residualStandardDeviation = Math.sqrt(residualSum / dof);
  return { coefficients, standardDeviations, covariance, residuals, residualSum, residualStandardDeviation, dof };
}

/** Ratio of the diagonal of R below which the scaled columns are dependent within double precision. */
const SINGULAR_BELOW = 1e-14;
/** Each round gains the digits that the condition number left, so a few reach the rounding of the result. */
const MAX_REFINEMENTS = 10;

/** Divides every column by the power of two next to its length: exact, and it takes the units out of the condition number. */
function scaleColumns(matrix: Float64Array, count: number, size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, j) => {
    const length = columnNorm(matrix, count, j);
    if (!(length > 0 && length < Infinity)) throw new AnalysisError("singular", "a column is zero or not finite");
    const power = 2 ** Math.round(log(length) / Math.LN2);
    for (let i = j * count; i < (j + 1) * count; i++) matrix[i]! /= power;
    return power;
  });
}

/** Solves r + A x = y, Aᵀ r = 0 for x and r at once: corrections come from the same factors, for f = y − r − A x, g = −Aᵀ r. */
function refine(factor: OrthogonalFactor, matrix: Float64Array, response: ArrayLike<number>) {
  const { rows, columns } = factor;
  const solution = new Float64Array(columns);
  const residuals = new Float64Array(rows);
  const f = Float64Array.from(response);
  const g = new Float64Array(columns);
  let lastChange = Number.POSITIVE_INFINITY;
  for (let round = 0; round <= MAX_REFINEMENTS; round++) {
    const h = factor.solveLower(g);
    factor.applyTransposed(f);
    const change = factor.solveUpper(h.map((value, k) => f[k]! - value));
    f.set(h);
    factor.apply(f);
    const changed = Math.hypot(...change);
    if (!Number.isFinite(changed)) throw new AnalysisError("singular", "a reading is not finite");
    if (!(changed < lastChange)) break; // down to rounding
    lastChange = changed;
    for (let j = 0; j < columns; j++) solution[j]! += change[j]!;
    for (let i = 0; i < rows; i++) residuals[i]! += f[i]!;
    for (let i = 0; i < rows; i++) {
      const sum = new CompensatedSum().add(response[i]!).add(-residuals[i]!);
      for (let j = 0; j < columns; j++) sum.addProduct(-matrix[j * rows + i]!, solution[j]!);
      f[i] = sum.value;
    }
    for (let j = 0; j < columns; j++) {
      const sum = new CompensatedSum();
      for (let i = 0; i < rows; i++) sum.addProduct(-matrix[j * rows + i]!, residuals[i]!);
      g[j] = sum.value;
    }
  }
  return { solution, residuals };
}
