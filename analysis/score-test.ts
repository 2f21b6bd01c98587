import { tCdf } from "./student-t.ts";

/**
 * Probability that chance makes an added column's c/u this large or larger, in the direction of its sign. The noise was fitted with the
 * column left out, so that what the column would explain counts as noise and s = |c|/u never exceeds √(ν+1): Student's t of ν
 * dof is s·√(ν/(ν+1−s²)) (regression with a variance from the reduced model; exact for white noise).
 */
export function scoreTestP({ value, u }: { readonly value: number; readonly u: number }, dof: number): number {
  const s = Math.abs(value) / u;
  const left = dof === Infinity ? 1 : (dof + 1 - s * s) / dof;
  return left > 0 ? 1 - tCdf(s / Math.sqrt(left), dof) : 0;
}
