/** At how many of the smallest differences we look: the true step is among them unless nearly every reading is unique. */
const CANDIDATES = 40;
/** A value is a whole multiple when it lies this near one, in steps: printed values are rounded. */
const TOLERANCE_STEPS = 0.05;
/** Large values hide the step behind their own rounding, so the lowest ones decide. */
const VALUES_LOOKED_AT = 600;

/**
 * The counter's step q, in the channel's unit: the smallest difference between readings of which at least 85 % of the
 * readings are whole multiples. 0 where there is none (values printed with more digits than the counter has).
 */
export function counterStep(values: ArrayLike<number>): number {
  const distinct = [...new Set(Float64Array.from(values).filter((v) => Number.isFinite(v) && v > 0))]
    .sort((a, b) => a - b)
    .slice(0, VALUES_LOOKED_AT);
  if (distinct.length === 0) return 0;
  const differences = distinct
    .map((value, i) => value - (i === 0 ? 0 : distinct[i - 1]!))
    .filter((difference, i) => difference > 1e-9 * distinct[i]!)
    .sort((a, b) => a - b);
  const tried: number[] = [];
  for (const step of differences) {
    const last = tried.at(-1);
    if (last !== undefined && step < last * 1.001) continue;
    tried.push(step);
    const multiples = distinct.filter((v) => Math.abs(v / step - Math.round(v / step)) < TOLERANCE_STEPS).length;
    if (multiples >= 0.85 * distinct.length) return step;
    if (tried.length >= CANDIDATES) break;
  }
  return 0;
}
