import { type BrokenLine, cubicRss, fitBrokenLine } from "./broken-line.ts";
import { type CornerBlocks, cornerBlocks, logWeight, memoryFactor } from "./corner-blocks.ts";
import { exp } from "./exp.ts";
import { lastingFall } from "./lasting-fall.ts";
import { log, log1p } from "./log.ts";
import { median } from "./median.ts";
import { firstAtOrAfter, type Readings, readingsBetween, unclipped } from "./readings.ts";

/** The moment a decay quickened, found without a mark. */
export interface SwitchOn {
  readonly atS: number;
  readonly uS: number;
  readonly kBeforePerH: number;
  readonly kAfterPerH: number;
}

/** Each condition guards against one way to see a corner where there is none. */
const LEAST_RATIO = 1.3;
const LEAST_SIGNIFICANCE = 3;
/** Where none is expected, in a log of natural decay: at 3 chance cut one sound log in a hundred to its first minutes. */
const UNEXPECTED_SIGNIFICANCE = 6;
const LEAST_HALVINGS_AFTER = 0.7;
/**
 * Noise alone lets the cubic win by a few parts in n: with 5 one in two hundred sound logs is refused in place of one in
 * fifty, and counters that lose 5 or 20 % at the peak are seen to switch no oftener (0.5 % of simulated natural decays).
 */
const BY_CHANCE = 5;
/** A crossing so much less certain than the corner of the broken line has lost it: too few points are left beside it. */
const LOST = 2;
/** Least natural loss of a room [1/h], as the estimator's priors take it. */
const LEAST_NATURAL_PER_H = 0.05;

/**
 * When the cleaner began to work within [fromS, toS]: the best continuous broken line in ln(C−B), accepted only if
 * (a) no cubic with as many parameters fits better by more than chance (a compressing counter bends smoothly), (b) k₂ ≥ 1.3 k₁,
 * (c) (k₂−k₁)/u ≥ 3 (6 where none is expected), u widened for the residuals' memory, (d) at least 0.7 of a halving follows. Then refined three
 * times as the crossing of two lines. Null where there is none.
 */
export function findSwitchOn(
  readings: Readings,
  fromS: number,
  toS: number,
  clean: { value: number } | null,
  settleS: (kPerH: number) => number,
  expected = true,
): SwitchOn | null {
  const segment = unclipped(readingsBetween(readings, fromS, toS));
  const { blocks, background } = aboveBackground(segment, clean?.value ?? null);
  const { tHours: x } = blocks;
  if (x.length < 8) return null;
  const y = blocks.values.map((v) => log(v - background));
  const w = blocks.values.map((v) => logWeight(blocks, v, background));
  const broken = fitBrokenLine(x, y, w);
  if (broken === null) return null;
  const before = -broken.slope1;
  const after = -broken.slope2;
  const accepted =
    cubicRss(x, y, w) >= broken.rss * (1 - BY_CHANCE / x.length) &&
    after > 0 &&
    after >= LEAST_RATIO * before &&
    (after - before) / (broken.uSlopeDifference * memoryFactor(broken.residuals)) >=
      (expected ? LEAST_SIGNIFICANCE : UNEXPECTED_SIGNIFICANCE) &&
    (x.at(-1)! - broken.breakpoint) * after >= LEAST_HALVINGS_AFTER * Math.LN2;
  const reach = clean === null ? 0.5 : 1;
  return accepted ? refine(blocks, background, broken, settleS(after) / 3600, reach) : null;
}

/** The readings in blocks down to where counter or background take over: 1 % of the start, 8 steps, 1½ times B. */
function aboveBackground(segment: Readings, clean: number | null): { blocks: CornerBlocks; background: number } {
  const { tS, values, stepQ } = segment;
  const n = values.length;
  const tail = median(values.slice(n - Math.max(5, Math.ceil(0.05 * n))));
  const background = Math.max(0, clean ?? tail / 2) || 0;
  const start = median(values.slice(0, 5)) - background;
  const least = Math.max(0.01 * start, 8 * stepQ, 1.5 * background);
  const low = lastingFall(segment, background + least);
  const toS = low < 0 ? Infinity : tS[low]!;
  const blocks = cornerBlocks(readingsBetween(segment, tS[0] ?? 0, toS));
  const kept = (_: number, i: number) => blocks.values[i]! - background > 0.3 * least;
  return {
    blocks: { ...blocks, tHours: blocks.tHours.filter(kept), values: blocks.values.filter(kept) },
    background,
  };
}

/**
 * The crossing of the two decays, margins of 2u and settling left out: a line in ln(C−B) before, one in ln(C−B′) after,
 * B′ = B·k₁/k₂ the floor under the cleaner (mass balance). u(t_s) = √(u₁² + u₂²)/(k₂ − k₁), u₁ and u₂ those of the two
 * lines' heights where they cross.
 */
function refine(
  blocks: CornerBlocks,
  background: number,
  broken: BrokenLine,
  settleH: number,
  reach: number,
): SwitchOn {
  const { tHours, perBlock } = blocks;
  let at = broken.breakpoint;
  let k1 = -broken.slope1;
  let k2 = -broken.slope2;
  const uBroken = broken.uBreakpoint * memoryFactor(broken.residuals);
  let u = uBroken;
  const [start, end] = [tHours[0]!, tHours.at(-1)!];
  // A block that holds the corner is neither before nor after it.
  const halfBlock = perBlock > 1 ? (0.5 * (end - start)) / (tHours.length - 1) : 0;
  for (let round = 0; round < 3; round++) {
    const floor = (background * Math.max(k1, LEAST_NATURAL_PER_H)) / Math.max(k1, k2, LEAST_NATURAL_PER_H);
    // Where the background is a guess, the nearer halves only: farther off it bends the lines.
    const before = line(blocks, background, at - reach * (at - start), at - 2 * u - halfBlock);
    const from = at + 2 * u + settleH + halfBlock;
    const after = line(blocks, floor, from, from + reach * (end - from));
    if (before === null || after === null || !(before.slope > after.slope)) break;
    const crossing = crossingOf(before, background, after, floor, at);
    const uOfCrossing = Math.hypot(before.uAt(crossing), after.uAt(crossing)) / (before.slope - after.slope);
    if (!(crossing > start && crossing < end && uOfCrossing < LOST * uBroken)) break;
    at = crossing;
    k1 = -before.slope;
    k2 = -after.slope;
    u = uOfCrossing;
  }
  return { atS: at * 3600, uS: u * 3600, kBeforePerH: k1, kAfterPerH: k2 };
}

type Line = NonNullable<ReturnType<typeof line>>;

/** Where B + e^line before meets B′ + e^line after; B − B′ is small against the level, so that a few rounds settle it. */
function crossingOf(before: Line, background: number, after: Line, floor: number, near: number): number {
  let at = near;
  for (let round = 0; round < 5; round++) {
    const above = exp(before.intercept + before.slope * at);
    const raised = log1p((background - floor) / above);
    at = (after.intercept - before.intercept - raised) / (before.slope - after.slope);
  }
  return at;
}

/** Weighted line through ln(C−B) of the blocks in [from, to], and u of its height, memory included; null under four. */
function line(blocks: CornerBlocks, background: number, from: number, to: number) {
  const [first, last] = [firstAtOrAfter(blocks.tHours, from), firstAtOrAfter(blocks.tHours, to)];
  const n = last - first;
  if (n < 4) return null;
  const x = blocks.tHours.subarray(first, last);
  const values = blocks.values.subarray(first, last);
  const y = values.map((v) => log(v - background));
  const w = values.map((v) => logWeight(blocks, v, background));
  const sum = (of: (i: number) => number) => w.reduce((total, weight, i) => total + weight * of(i), 0);
  const sw = sum(() => 1);
  const [mx, my] = [sum((i) => x[i]!) / sw, sum((i) => y[i]!) / sw];
  const sxx = sum((i) => (x[i]! - mx) ** 2);
  const slope = sum((i) => (x[i]! - mx) * (y[i]! - my)) / sxx;
  const residuals = y.map((v, i) => Math.sqrt(w[i]!) * (v - my - slope * (x[i]! - mx)));
  const scatter = Math.sqrt(residuals.reduce((s, r) => s + r * r, 0) / (n - 2)) * memoryFactor(residuals, 0.99);
  const uAt = (at: number) => scatter * Math.sqrt(1 / sw + (at - mx) ** 2 / sxx);
  return { slope, intercept: my - slope * mx, uAt };
}
