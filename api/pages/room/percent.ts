import { range } from "../figures.ts";

/** A probability for readers: whole per cent, and one decimal where it is nearly sure. */
export function chance(probability: number): string {
  const percent = 100 * probability;
  if (percent >= 99.95) return "over 99.9\u00a0%";
  if (percent < 0.5) return "under 1\u00a0%";
  return `${percent > 99 ? percent.toFixed(1) : Math.round(percent)}\u00a0%`;
}

/** `8.0 (4.4 to 11) %` of a share with its interval. */
export function percentRange({ value, low, high }: { value: number; low: number; high: number }): string {
  return `${range({ value: 100 * value, low: 100 * low, high: 100 * high })}\u00a0%`;
}
