import { log } from "./log.ts";

/**
 * Inverse and log-determinant of a small symmetric positive-definite matrix by Cholesky, scaled to a unit diagonal
 * first so that parameters of any unit can share it. Null where it is not positive definite.
 */
export function invertPositiveDefinite(
  matrix: readonly (readonly number[])[],
): { inverse: number[][]; logDet: number } | null {
  const n = matrix.length;
  const scale = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    scale[i] = Math.sqrt(matrix[i]![i]!);
    if (!(scale[i]! > 0 && scale[i]! < Infinity)) return null;
  }
  // L of the scaled matrix, row by row; then L⁻¹, from which the inverse is L⁻ᵀL⁻¹.
  const lower = new Float64Array(n * n);
  let logDet = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]! / (scale[i]! * scale[j]!);
      for (let k = 0; k < j; k++) sum -= lower[i * n + k]! * lower[j * n + k]!;
      if (i !== j) lower[i * n + j] = sum / lower[j * n + j]!;
      else if (sum > 1e-14) lower[i * n + i] = Math.sqrt(sum);
      else return null;
    }
    logDet += 2 * log(lower[i * n + i]! * scale[i]!);
  }
  const inverseLower = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let sum = i === j ? 1 : 0;
      for (let k = j; k < i; k++) sum -= lower[i * n + k]! * inverseLower[k * n + j]!;
      inverseLower[i * n + j] = sum / lower[i * n + i]!;
    }
  }
  const inverse: number[][] = [];
  for (let i = 0; i < n; i++) {
    const row: number[] = [];
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let k = Math.max(i, j); k < n; k++) sum += inverseLower[k * n + i]! * inverseLower[k * n + j]!;
      row.push(sum / (scale[i]! * scale[j]!));
    }
    inverse.push(row);
  }
  return { inverse, logDet };
}
