import { type BrokenLine, cubicRss, fitBrokenLine } from "./broken-line.ts";
import { median } from "./median.ts";
import { firstAtOrAfter, type Readings, readingsBetween, unclipped } from "./readings.ts";

/** The moment a decay quickened, found without a mark. */
export interface SwitchOn {
  readonly atS: number;
  readonly uS: number;
  readonly kBeforePerH: number;
  readonly kAfterPerH: number;
}

const MOST_BLOCKS = 150;
/** Each condition guards against one way to see a corner where there is none. */
const LEAST_RATIO = 1.3;
const LEAST_SIGNIFICANCE = 3;
const LEAST_HALVINGS_AFTER = 0.7;

/**
 * When the cleaner began to work within [fromS, toS]: the best continuous broken line in ln(C−B), accepted only if
 * (a) no cubic with as many parameters fits better (a compressing counter bends smoothly), (b) k₂ ≥ 1.3 k₁,
 * (c) (k₂−k₁)/u ≥ 3, u widened for the residuals' memory, (d) at least 0.7 of a halving follows. Then refined three
 * times as the crossing of two lines. Null where there is none.
 */
export function findSwitchOn(
  readings: Readings,
  fromS: number,
  toS: number,
  clean: { value: number } | null,
  settleS: (kPerH: number) => number,
): SwitchOn | null {
  const segment = unclipped(readingsBetween(readings, fromS, toS));
  const { tHours, ln } = aboveBackground(segment, clean?.value ?? null);
  const points = blockMeans(tHours, ln);
  if (points.x.length < 8) return null;
  const broken = fitBrokenLine(points.x, points.y);
  if (broken === null) return null;
  const before = -broken.slope1;
  const after = -broken.slope2;
  const end = points.x.at(-1)!;
  const accepted =
    cubicRss(points.x, points.y) >= broken.rss &&
    after > 0 &&
    after >= LEAST_RATIO * before &&
    (after - before) / (broken.uSlopeDifference * memoryFactor(broken.residuals)) >= LEAST_SIGNIFICANCE &&
    (end - broken.breakpoint) * after >= LEAST_HALVINGS_AFTER * Math.LN2;
  return accepted ? refine(tHours, ln, broken, settleS(after) / 3600) : null;
}

/** ln(C−B) of the readings down to where counter or background take over: 1 % of the start, 8 steps, 1½ times B. */
function aboveBackground({ tS, values, stepQ }: Readings, clean: number | null) {
  const n = values.length;
  const tail = median(values.slice(n - Math.max(5, Math.ceil(0.05 * n))));
  const background = Math.max(0, clean ?? tail / 2) || 0;
  const start = median(values.slice(0, 5)) - background;
  const least = Math.max(0.01 * start, 8 * stepQ, 1.5 * background);
  let end = n;
  for (let i = 0; i + 3 <= n; i++) {
    if (median(values.slice(i, i + 5)) - background < least) {
      end = i;
      break;
    }
  }
  const kept = [...values.keys()].filter((i) => i < end && values[i]! - background > 0.3 * least);
  return {
    tHours: Float64Array.from(kept, (i) => tS[i]! / 3600),
    ln: Float64Array.from(kept, (i) => Math.log(values[i]! - background)),
  };
}

function blockMeans(t: Float64Array, y: Float64Array): { x: Float64Array; y: Float64Array } {
  const per = Math.max(1, Math.ceil(t.length / MOST_BLOCKS));
  const count = Math.floor(t.length / per);
  const average = (v: Float64Array) =>
    Float64Array.from({ length: count }, (_, b) => v.subarray(b * per, (b + 1) * per).reduce((s, a) => s + a, 0) / per);
  return { x: average(t), y: average(y) };
}

/** √((1+ρ)/(1−ρ)): how much wider a line's errors are when neighbours are correlated by ρ (first-order autoregression). */
function memoryFactor(residuals: Float64Array, mostRho = 0.95): number {
  const power = residuals.reduce((sum, r) => sum + r * r, 0);
  const lagged = residuals.reduce((sum, r, i) => sum + (i > 0 ? r * residuals[i - 1]! : 0), 0);
  const rho = power > 0 ? Math.min(mostRho, Math.max(0, lagged / power)) : 0;
  return Math.sqrt((1 + rho) / (1 - rho));
}

/**
 * The crossing of a line through the readings before and one through those after, margins of 2u and settling left out:
 * u(t_s) = √(u₁² + u₂²)/(k₂ − k₁), u₁ and u₂ those of the two lines' heights where they cross.
 */
function refine(tHours: Float64Array, ln: Float64Array, broken: BrokenLine, settleH: number): SwitchOn {
  let at = broken.breakpoint;
  let k1 = -broken.slope1;
  let k2 = -broken.slope2;
  let u = Math.sqrt(broken.rss / broken.residuals.length) / (k2 - k1);
  const [start, end] = [tHours[0]!, tHours.at(-1)!];
  for (let round = 0; round < 3; round++) {
    // The nearer halves only: farther off the background, which is a guess here, bends the line.
    const before = line(tHours, ln, 0.5 * (start + at), at - 2 * u);
    const from = at + 2 * u + settleH;
    const after = line(tHours, ln, from, 0.5 * (from + end));
    if (before === null || after === null || !(before.slope > after.slope)) break;
    const crossing = (after.intercept - before.intercept) / (before.slope - after.slope);
    if (!(crossing > start && crossing < end)) break;
    at = crossing;
    k1 = -before.slope;
    k2 = -after.slope;
    u = Math.hypot(before.uAt(at), after.uAt(at)) / (k2 - k1);
  }
  return { atS: at * 3600, uS: u * 3600, kBeforePerH: k1, kAfterPerH: k2 };
}

/** Line through the points in [from, to], and u of its height at some x, memory included; null with fewer than four. */
function line(x: Float64Array, y: Float64Array, from: number, to: number) {
  const first = firstAtOrAfter(x, from);
  const last = firstAtOrAfter(x, to);
  const n = last - first;
  if (n < 4) return null;
  let [sx, sy] = [0, 0];
  for (let i = first; i < last; i++) {
    sx += x[i]!;
    sy += y[i]!;
  }
  const [mx, my] = [sx / n, sy / n];
  let [sxx, sxy] = [0, 0];
  for (let i = first; i < last; i++) {
    sxx += (x[i]! - mx) ** 2;
    sxy += (x[i]! - mx) * (y[i]! - my);
  }
  const slope = sxy / sxx;
  const residuals = Float64Array.from({ length: n }, (_, i) => y[first + i]! - my - slope * (x[first + i]! - mx));
  const scatter = Math.sqrt(residuals.reduce((sum, r) => sum + r * r, 0) / (n - 2)) * memoryFactor(residuals, 0.99);
  const uAt = (at: number) => scatter * Math.sqrt(1 / n + (at - mx) ** 2 / sxx);
  return { slope, intercept: my - slope * mx, uAt };
}
