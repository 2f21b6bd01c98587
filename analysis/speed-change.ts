import { type BentDecay, fitBentDecay, type WeighedBlocks, weigh } from "./bent-decay.ts";
import { cornerBlocks, memoryFactor } from "./corner-blocks.ts";
import { median } from "./median.ts";
import { firstAtOrAfter, type Readings, readingsBetween, unclipped } from "./readings.ts";

/** A break in a decay under the cleaner: it slowed itself down, was switched to another speed or off. */
export interface SpeedChange {
  readonly atS: number;
  readonly uS: number;
  readonly kBeforePerH: number;
  readonly kAfterPerH: number;
}

/** Fewest blocks: a break over less is not told from noise. */
const LEAST_BLOCKS = 12;
/** Rates that differ by less are no change of speed. */
const LEAST_RATIO = 1.25;
/** F of the broken over the straight decay (two parameters more), residuals' memory taken off. */
const LEAST_GAIN = 11;
const LEAST_HALVINGS = 0.7;
const TRIED = 30;

/**
 * The break of a total decay in [fromS, toS]: the best B + A·e^(−k₁t) that goes on as e^(−k₂t) from a break on, B free up to
 * `mostBackground`. Accepted only if (a) no decay whose exponent is a cubic fits better (two zones, drift and dead time bend it
 * smoothly), (b) it fits much better than a single exponential over its floor, F widened for the residuals' memory,
 * (c) the rates differ by a quarter, (d) 0.7 of a halving comes before, and after it where it quickens. Null where there is none.
 */
export function findSpeedChange(
  readings: Readings,
  fromS: number,
  toS: number,
  mostBackground: number,
): SpeedChange | null {
  const segment = unclipped(readingsBetween(readings, fromS, toS));
  const blocks = cornerBlocks(segment);
  const n = blocks.tHours.length;
  if (n < LEAST_BLOCKS) return null;
  const data = weigh(blocks);
  const { tHours: t, values } = data;
  const tail = median(values.subarray(n - Math.max(3, Math.ceil(0.05 * n))));
  const mostB = Math.max(0, Math.min(mostBackground, 1.1 * tail));
  const straight = fitStraight(data, mostB, tail);
  if (straight === null || !(straight.rates[0]! > 0)) return null;
  const gainOf = (fit: BentDecay) => (straight.rss - fit.rss) / 2 / (fit.rss / (n - 5));
  const broken = fitBroken(data, straight, mostB);
  if (broken === null) return null;
  const { breakH, fit } = broken;
  const [before, change] = fit.rates as [number, number];
  const after = before + change;
  const memory = memoryFactor(fit.residuals, 0.95, true);
  const slower = after <= before / LEAST_RATIO;
  const quicker = after >= before * LEAST_RATIO && (t[n - 1]! - breakH) * after >= LEAST_HALVINGS * Math.LN2;
  const lasted = before * breakH >= LEAST_HALVINGS * Math.LN2;
  if (!(gainOf(fit) >= LEAST_GAIN * memory ** 2 && (slower || quicker) && lasted)) return null;
  const smooth = fitCubic(data, straight, Math.min(mostB, fit.background));
  if (smooth !== null && smooth.rss < fit.rss) return null;
  return {
    atS: 3600 * (blocks.tHours[0]! + breakH),
    uS: 3600 * uOfBreak(data, breakH, fit) * memory,
    kBeforePerH: before,
    kAfterPerH: after,
  };
}

function fitStraight(data: WeighedBlocks, mostB: number, tail: number): BentDecay | null {
  const { tHours: t, values } = data;
  const middle = t.length >> 1;
  const start = Math.max(median(values.subarray(0, 3)), Number.MIN_VALUE);
  const half = Math.max(median(values.subarray(middle - 1, middle + 2)), 1e-3 * start);
  const k = Math.max(0.05, Math.log(start / half) / Math.max(t[middle]!, 1e-9));
  const fits = [0, Math.min(mostB, 0.5 * tail), Math.min(mostB, 0.95 * tail)].flatMap((background) => {
    const fit = fitBentDecay(data, [t], { lnA: Math.log(start), rates: [k], background }, mostB);
    return fit ? [fit] : [];
  });
  return fits.reduce<BentDecay | null>((a, b) => (a === null || b.rss < a.rss ? b : a), null);
}

/** From the straight curve, and from the cubic through ln C: B takes up what it can of a bend, and hides the way to it. */
function fitCubic(data: WeighedBlocks, straight: BentDecay, mostB: number): BentDecay | null {
  const { tHours: t } = data;
  const shapes = [t, t.map((v) => v * v), t.map((v) => v ** 3)];
  const start = { ...straight, rates: [straight.rates[0]!, 0, 0] };
  const unlifted = fitBentDecay(data, shapes, start, 0);
  const fits = [start, ...(unlifted ? [unlifted] : [])].map((from) => fitBentDecay(data, shapes, from, mostB));
  return fits.reduce((a, b) => (a === null || (b !== null && b.rss < a.rss) ? b : a));
}

/** Best of thirty breaks, then of six beside it; null where no break helps the straight curve in its first step. */
function fitBroken(data: WeighedBlocks, straight: BentDecay, mostB: number): Broken | null {
  const { tHours: t } = data;
  const end = t[t.length - 1]!;
  const shapes = (breakH: number) => [t, t.map((v) => Math.max(0, v - breakH))];
  const onward = { ...straight, rates: [straight.rates[0]!, 0] };
  const step = (0.9 * end) / TRIED;
  const breaks = Array.from({ length: TRIED - 1 }, (_, i) => 0.05 * end + (i + 1) * step);
  const promises = breaks.some((breakH) => {
    const once = fitBentDecay(data, shapes(breakH), onward, mostB, 1);
    return once !== null && (straight.rss - once.rss) / 2 > 0.25 * LEAST_GAIN * (once.rss / (t.length - 5));
  });
  if (!promises) return null;
  const best = (tried: readonly number[], from: Broken | null) =>
    tried.reduce((least, breakH) => {
      for (const start of [onward, twoLines(data, breakH)]) {
        const fit = fitBentDecay(data, shapes(breakH), start, mostB);
        if (fit && (least === null || fit.rss < least.fit.rss)) least = { breakH, fit };
      }
      return least;
    }, from);
  const coarse = best(breaks, null);
  if (coarse === null) return null;
  const beside = [-0.75, -0.5, -0.25, 0.25, 0.5, 0.75].map((share) => coarse.breakH + share * step);
  return best(beside, coarse);
}

interface Broken {
  readonly breakH: number;
  readonly fit: BentDecay;
}

/** Lines through the logarithms on both sides of a break, B not counted: the straight curve's B hides a unit that stopped. */
function twoLines({ tHours: t, values }: WeighedBlocks, breakH: number) {
  const last = t.length - 2;
  const i = Math.max(2, Math.min(last - 1, firstAtOrAfter(t, breakH)));
  const ln = (j: number) => Math.log(Math.max(median(values.subarray(j - 1, j + 2)), Number.MIN_VALUE));
  const k1 = (ln(1) - ln(i)) / (t[i]! - t[1]!);
  const k2 = (ln(i) - ln(last)) / (t[last]! - t[i]!);
  return { lnA: ln(1) + k1 * t[1]!, rates: [k1, k2 - k1], background: 0 };
}

/** Standard error of the break, levels and rates free beside it, residuals taken as independent. */
function uOfBreak({ tHours: t, errors }: WeighedBlocks, breakH: number, { lnA, rates, rss }: BentDecay): number {
  const change = rates[1]!;
  // Of the parameters that move the curve at the break, its height and both rates decide.
  const above = t.map((v, i) => Math.exp(lnA - rates[0]! * v - change * Math.max(0, v - breakH)) / errors[i]!);
  const sum = (of: (v: number) => number) => t.reduce((s, v, i) => s + (above[i]! * of(v)) ** 2, 0);
  const side = (keep: (v: number) => boolean) => {
    const w = sum((v) => (keep(v) ? 1 : 0));
    const m = t.reduce((s, v, i) => s + (keep(v) ? above[i]! ** 2 * v : 0), 0) / w;
    const spread = sum((v) => (keep(v) ? v - m : 0));
    return Math.sqrt(1 / w + (breakH - m) ** 2 / spread);
  };
  const scatter = Math.sqrt(rss / Math.max(1, t.length - 5));
  return (
    (scatter *
      Math.hypot(
        side((v) => v <= breakH),
        side((v) => v > breakH),
      )) /
    Math.abs(change)
  );
}
