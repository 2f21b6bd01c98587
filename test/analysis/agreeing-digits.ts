/** Significant digits to which `found` agrees with `certified`, −lg|found/certified − 1|; from 0 the absolute error is taken. */
export function agreeingDigits(found: number, certified: number): number {
  const error = certified === 0 ? Math.abs(found) : Math.abs(found / certified - 1);
  return error === 0 ? Number.POSITIVE_INFINITY : -Math.log10(error);
}

/** The fewest agreeing digits of any pair; NaN anywhere gives NaN, which no comparison accepts. */
export function fewestAgreeingDigits(found: ArrayLike<number>, certified: readonly number[]): number {
  if (found.length !== certified.length) return Number.NaN;
  return Math.min(...certified.map((value, i) => agreeingDigits(found[i]!, value)));
}
