/** The significant digits, two or as many more, with which two uncertainties that are not the same are not written the same. */
export function digitsApart(a: number, b: number): number {
  return [2, 3, 4].find((digits) => Number(a.toPrecision(digits)) !== Number(b.toPrecision(digits))) ?? 2;
}
