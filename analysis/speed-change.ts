import { type BentDecay, fitBentDecay, type WeighedBlocks, weigh } from "./bent-decay.ts";
import { cornerBlocks, memoryFactor } from "./corner-blocks.ts";
import { exp } from "./exp.ts";
import { log } from "./log.ts";
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
/** Halvings that follow where it quickens, as after a switch-on. */
const LEAST_HALVINGS = 0.7;
/** What must be left before the break: a decay that can be fitted, for a sound one is not to be lost to a chance break … */
const LEFT_HALVINGS = 1.2;
const LEFT_READINGS = 12;
/** … unless the break is beyond all doubt: then a refusal is more honest than a fit across it. */
const BEYOND_DOUBT = 3;
/** A smooth bend that comes this near is as good an account. */
const SMOOTH_MARGIN = 1.05;
const TRIED = 30;
/** Rates at which what differed between two zones dies away, in window lengths. */
const DYING = [3, 5, 8, 12, 18, 27];
/** A floor at less of the tail than this is none that the tail stands on. */
const PLATEAU_SHARE = 0.3;

/**
 * The break of a total decay in [fromS, toS]: the best B + A·e^(−k₁t) that goes on as e^(−k₂t) from a break on, B free up to
 * `mostBackground`. Accepted only if (a) no decay that bends smoothly fits better (drift, dead time, two zones that mix), (b) it fits much better than a single exponential over its floor, F widened for the residuals' memory,
 * (c) the rates differ by a quarter, (d) what comes before can be fitted, and where it quickens 0.7 of a halving follows. Null
 * where there is none.
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
  const { values } = data;
  const tail = median(values.subarray(n - Math.max(3, Math.ceil(0.05 * n))));
  const mostB = Math.max(0, Math.min(mostBackground, 1.1 * tail));
  const straight = fitStraight(data, mostB, tail);
  if (straight === null || !(straight.rates[0]! > 0)) return null;
  if (!promisesBreak(data, straight, mostB)) return null;
  // A unit that stopped leaves a plateau, which a high floor explains too, reached the quicker: so without one as well.
  for (const most of [mostB, Math.min(mostB, PLATEAU_SHARE * tail)]) {
    const found = acceptedBreak(data, blocks.perBlock, straight, most);
    if (found === null) continue;
    const { atH, uH, fit } = found;
    const [before, change] = fit.rates as [number, number];
    return {
      atS: 3600 * (blocks.tHours[0]! + atH),
      uS: 3600 * uH,
      kBeforePerH: before,
      kAfterPerH: before + change,
    };
  }
  return null;
}

function acceptedBreak(data: WeighedBlocks, perBlock: number, straight: BentDecay, mostB: number) {
  const { tHours: t } = data;
  const n = t.length;
  const broken = fitBroken(data, straight, mostB);
  if (broken === null) return null;
  const { breakH, fit } = broken;
  const [before, change] = fit.rates as [number, number];
  const after = before + change;
  const memory = memoryFactor(fit.residuals, 0.95, true);
  const uH = uOfBreak(data, breakH, fit) * memory;
  const leftH = breakH - 2 * uH;
  const left = before * leftH >= LEFT_HALVINGS * Math.LN2 && firstAtOrAfter(t, leftH) * perBlock >= LEFT_READINGS;
  const slower = after <= before / LEAST_RATIO;
  const quicker = after >= before * LEAST_RATIO && (t[n - 1]! - breakH) * after >= LEAST_HALVINGS * Math.LN2;
  const gain = (straight.rss - fit.rss) / 2 / ((fit.rss / (n - 5)) * memory ** 2);
  const doubt = left ? LEAST_GAIN : LEAST_GAIN * BEYOND_DOUBT;
  if (!(gain >= doubt && (slower || (quicker && left)))) return null;
  const smoother = smoothRss(data, straight, Math.min(mostB, fit.background)) < SMOOTH_MARGIN * fit.rss;
  return smoother ? null : { atH: breakH, uH, fit };
}

function fitStraight(data: WeighedBlocks, mostB: number, tail: number): BentDecay | null {
  const { tHours: t, values } = data;
  const middle = t.length >> 1;
  const start = Math.max(median(values.subarray(0, 3)), Number.MIN_VALUE);
  const half = Math.max(median(values.subarray(middle - 1, middle + 2)), 1e-3 * start);
  const k = Math.max(0.05, log(start / half) / Math.max(t[middle]!, 1e-9));
  const fits = [0, Math.min(mostB, 0.5 * tail), Math.min(mostB, 0.95 * tail)].flatMap((background) => {
    const fit = fitBentDecay(data, [t], { lnA: log(start), rates: [k], background }, mostB);
    return fit ? [fit] : [];
  });
  return fits.reduce<BentDecay | null>((a, b) => (a === null || b.rss < a.rss ? b : a), null);
}

/**
 * Least RSS of decays that bend smoothly with as many parameters: the exponent a cubic, begun at the straight curve and at the
 * cubic through ln C (B takes up what it can of a bend, and hides the way to it), or with a part that dies away at some rate, as
 * two zones that mix have it.
 */
function smoothRss(data: WeighedBlocks, straight: BentDecay, mostB: number): number {
  const { tHours: t } = data;
  const end = t[t.length - 1]!;
  const k = straight.rates[0]!;
  const cubic = [t, t.map((v) => v * v), t.map((v) => v * v * v)];
  const start = { ...straight, rates: [k, 0, 0] };
  const unlifted = fitBentDecay(data, cubic, start, 0);
  const fits = [
    ...[start, ...(unlifted ? [unlifted] : [])].map((from) => fitBentDecay(data, cubic, from, mostB)),
    ...DYING.map((rate) =>
      fitBentDecay(data, [t, t.map((v) => exp((-rate * v) / end))], { ...straight, rates: [k, 0] }, mostB),
    ),
  ];
  return Math.min(...fits.map((fit) => fit?.rss ?? Infinity));
}

/** Where tried breaks lie, and how far apart. */
function breaksIn({ tHours: t }: WeighedBlocks): { breaks: number[]; step: number } {
  const end = t[t.length - 1]!;
  const step = (0.9 * end) / TRIED;
  return { breaks: Array.from({ length: TRIED - 1 }, (_, i) => 0.05 * end + (i + 1) * step), step };
}

/** Whether some break helps the straight curve in its first step, memory not counted: most decays are straight and end here. */
function promisesBreak(data: WeighedBlocks, straight: BentDecay, mostB: number): boolean {
  const { tHours: t } = data;
  const onward = { ...straight, rates: [straight.rates[0]!, 0] };
  return breaksIn(data).breaks.some((breakH) => {
    const once = fitBentDecay(data, [t, t.map((v) => Math.max(0, v - breakH))], onward, mostB, 1);
    return once !== null && (straight.rss - once.rss) / 2 > 0.25 * LEAST_GAIN * (once.rss / (t.length - 5));
  });
}

/** Best of thirty breaks, then of six beside it. */
function fitBroken(data: WeighedBlocks, straight: BentDecay, mostB: number): Broken | null {
  const { tHours: t } = data;
  const { breaks, step } = breaksIn(data);
  const onward = { ...straight, rates: [straight.rates[0]!, 0] };
  const best = (tried: readonly number[], from: Broken | null) =>
    tried.reduce((least, breakH) => {
      for (const start of [onward, twoLines(data, breakH)]) {
        const fit = fitBentDecay(data, [t, t.map((v) => Math.max(0, v - breakH))], start, mostB);
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
  const ln = (j: number) => log(Math.max(median(values.subarray(j - 1, j + 2)), Number.MIN_VALUE));
  const k1 = (ln(1) - ln(i)) / (t[i]! - t[1]!);
  const k2 = (ln(i) - ln(last)) / (t[last]! - t[i]!);
  return { lnA: ln(1) + k1 * t[1]!, rates: [k1, k2 - k1], background: 0 };
}

/** Standard error of the break, levels and rates free beside it, residuals taken as independent. */
function uOfBreak({ tHours: t, errors }: WeighedBlocks, breakH: number, { lnA, rates, rss }: BentDecay): number {
  const change = rates[1]!;
  // Of the parameters that move the curve at the break, its height and both rates decide.
  const above = t.map((v, i) => exp(lnA - rates[0]! * v - change * Math.max(0, v - breakH)) / errors[i]!);
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
