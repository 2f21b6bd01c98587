/** At how many differences we look, the commonest first: a step is seen again and again, chance differences once. */
const CANDIDATES = 20;
/** A value is a whole multiple when it lies this near one, in steps: printed values are rounded. */
const TOLERANCE_STEPS = 0.05;
const LEAST_SHARE = 0.85;
/** More values than this decide no better. */
const VALUES_LOOKED_AT = 1500;

/**
 * The counter's step q, in the channel's unit: the smallest common difference between readings of which at least 85 % of
 * the readings are whole multiples. 0 where there is none (values printed with more digits than the counter has, or too
 * few of them).
 */
export function counterStep(values: ArrayLike<number>): number {
  const positive = Float64Array.from(values).filter((v) => v > 0 && v < Infinity);
  const every = Math.ceil(positive.length / VALUES_LOOKED_AT);
  const looked = positive.filter((_, i) => i % every === 0).sort();
  const common = new Map<string, number>();
  for (let i = 0; i < looked.length; i++) {
    const difference = looked[i]! - (i === 0 ? 0 : looked[i - 1]!);
    if (!(difference > 1e-9 * looked[i]!)) continue;
    const rounded = difference.toPrecision(7);
    common.set(rounded, (common.get(rounded) ?? 0) + 1);
  }
  const often = Math.max(2, 0.02 * common.size);
  const steps = [...common]
    .filter(([, times]) => times >= often)
    .sort((a, b) => b[1] - a[1])
    .slice(0, CANDIDATES)
    .map(([rounded]) => Number(rounded))
    .sort((a, b) => a - b);
  return steps.find((step) => multiples(looked, step) >= LEAST_SHARE * looked.length) ?? 0;
}

function multiples(values: Float64Array, step: number): number {
  return values.reduce((n, v) => (Math.abs(v / step - Math.round(v / step)) < TOLERANCE_STEPS ? n + 1 : n), 0);
}
