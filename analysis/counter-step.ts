import { log } from "./log.ts";

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
  const looked = someOfPositive(values).sort();
  const common = new Map<number, number>();
  for (let i = 0; i < looked.length; i++) {
    const difference = looked[i]! - (i === 0 ? 0 : looked[i - 1]!);
    if (!(difference > 1e-9 * looked[i]!)) continue;
    const rounded = toSevenDigits(difference);
    common.set(rounded, (common.get(rounded) ?? 0) + 1);
  }
  const often = Math.max(2, 0.02 * common.size);
  const steps = [...common]
    .filter(([, times]) => times >= often)
    .sort((a, b) => b[1] - a[1])
    .slice(0, CANDIDATES)
    .map(([rounded]) => rounded)
    .sort((a, b) => a - b);
  return steps.find((step) => multiples(looked, step) >= LEAST_SHARE * looked.length) ?? 0;
}

/** The positive readings, of many every few: at most VALUES_LOOKED_AT. */
function someOfPositive(values: ArrayLike<number>): Float64Array {
  let positive = 0;
  for (let i = 0; i < values.length; i++) if (values[i]! > 0 && values[i]! < Infinity) positive++;
  const every = Math.max(1, Math.ceil(positive / VALUES_LOOKED_AT));
  const looked = new Float64Array(Math.ceil(positive / every));
  let seen = 0;
  for (let i = 0; i < values.length; i++) {
    if (!(values[i]! > 0 && values[i]! < Infinity)) continue;
    if (seen % every === 0) looked[seen / every] = values[i]!;
    seen++;
  }
  return looked;
}

/** Differences of printed values differ by rounding: seven digits are more than a counter shows. */
function toSevenDigits(value: number): number {
  const exponent = Math.floor(log(value) / Math.LN10) - 6;
  const unit = 10 ** Math.abs(exponent);
  return exponent < 0 ? Math.round(value * unit) / unit : Math.round(value / unit) * unit;
}

function multiples(values: Float64Array, step: number): number {
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const steps = values[i]! / step;
    if (Math.abs(steps - Math.round(steps)) < TOLERANCE_STEPS) count++;
  }
  return count;
}
