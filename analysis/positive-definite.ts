/**
 * Inverse and log-determinant of a small symmetric positive-definite matrix by Cholesky, scaled to a unit diagonal
 * first so that parameters of any unit can share it. Null where it is not positive definite.
 */
export function invertPositiveDefinite(
  matrix: readonly (readonly number[])[],
): { inverse: number[][]; logDet: number } | null {
  const n = matrix.length;
  const scale = matrix.map((row, i) => Math.sqrt(row[i]!));
  if (!scale.every((s) => s > 0 && s < Infinity)) return null;
  const lower = matrix.map(() => new Array<number>(n).fill(0));
  let logDet = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]! / (scale[i]! * scale[j]!);
      for (let k = 0; k < j; k++) sum -= lower[i]![k]! * lower[j]![k]!;
      if (i !== j) lower[i]![j] = sum / lower[j]![j]!;
      else if (sum > 1e-14) lower[i]![i] = Math.sqrt(sum);
      else return null;
    }
    logDet += 2 * Math.log(lower[i]![i]! * scale[i]!);
  }
  const inverse = matrix.map(() => new Array<number>(n).fill(0));
  for (let column = 0; column < n; column++) {
    const x = new Array<number>(n).fill(0);
    for (let i = 0; i < n; i++) {
      let sum = i === column ? 1 : 0;
      for (let k = 0; k < i; k++) sum -= lower[i]![k]! * x[k]!;
      x[i] = sum / lower[i]![i]!;
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = x[i]!;
      for (let k = i + 1; k < n; k++) sum -= lower[k]![i]! * x[k]!;
      x[i] = sum / lower[i]![i]!;
    }
    for (let i = 0; i < n; i++) inverse[i]![column] = x[i]! / (scale[i]! * scale[column]!);
  }
  return { inverse, logDet };
}
