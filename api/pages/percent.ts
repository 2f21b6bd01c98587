import { range } from "./figures.ts";

interface Interval {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A share that has no interval: `12 %`, two digits. */
export function percentOf(share: number): string {
  return `${Number((100 * share).toPrecision(2))}\u00a0%`;
}

/** A probability for readers: whole per cent, and one decimal where it is nearly sure. */
export function chance(probability: number): string {
  const percent = 100 * probability;
  if (percent >= 99.95) return "over 99.9\u00a0%";
  if (percent < 0.5) return "under 1\u00a0%";
  return `${percent > 99 ? percent.toFixed(1) : Math.round(percent)}\u00a0%`;
}

/** One that is under what was asked for, where whole per cents would not show it. */
export function chanceBelow(probability: number, asked: number): string {
  return chance(probability) === chance(asked) ? `just under ${chance(asked)}` : chance(probability);
}

/** A share with its interval, in per cent. */
export function inPercent({ value, low, high }: Interval): Interval & { readonly unit: "%" } {
  return { value: 100 * value, low: 100 * low, high: 100 * high, unit: "%" };
}

/** `8.0 (4.4 to 11) %` of such a share. */
export function percentRange(share: Interval): string {
  return `${range(inPercent(share))}\u00a0%`;
}
