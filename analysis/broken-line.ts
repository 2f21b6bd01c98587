import { invertPositiveDefinite } from "./positive-definite.ts";

export interface BrokenLine {
  readonly breakpoint: number;
  readonly intercept: number;
  readonly slope1: number;
  readonly slope2: number;
  /** Standard error of slope2 − slope1 with the breakpoint free, residuals taken as independent. */
  readonly uSlopeDifference: number;
  readonly residuals: Float64Array;
  readonly rss: number;
}

/** Points each side must have: a slope over fewer is noise. */
const FEWEST_A_SIDE = 3;

/**
 * Best continuous broken line y = intercept + slope1·x + (slope2−slope1)·max(0, x−breakpoint), x rising: every point is
 * tried as the breakpoint, then the best refined between its neighbours. Null with too few points.
 * (Segmented regression by exhaustive search.)
 */
export function fitBrokenLine(x: Float64Array, y: Float64Array): BrokenLine | null {
  const n = x.length;
  let best = -1;
  let least = Infinity;
  for (let i = FEWEST_A_SIDE - 1; i <= n - FEWEST_A_SIDE; i++) {
    const rss = hinge(x, y, x[i]!)?.rss ?? Infinity;
    if (rss < least) {
      least = rss;
      best = i;
    }
  }
  if (best < 0) return null;
  const breakpoint = lowest((c) => hinge(x, y, c)?.rss ?? Infinity, x, best);
  const fit = hinge(x, y, breakpoint);
  if (fit === null) return null;
  return { ...fit, breakpoint, uSlopeDifference: uOfDifference(x, breakpoint, fit.slope2 - fit.slope1, fit.rss) };
}

/** RSS of the best cubic through the points: the smooth curve with as many parameters as a broken line. */
export function cubicRss(x: Float64Array, y: Float64Array): number {
  const n = x.length;
  const middle = 0.5 * (x[0]! + x[n - 1]!);
  const reach = 0.5 * (x[n - 1]! - x[0]!) || 1;
  const scaled = x.map((v) => (v - middle) / reach);
  // Legendre polynomials keep the four columns nearly orthogonal.
  const columns = [
    scaled.map(() => 1),
    scaled,
    scaled.map((s) => 1.5 * s * s - 0.5),
    scaled.map((s) => 2.5 * s * s * s - 1.5 * s),
  ];
  return project(columns, y)?.rss ?? Infinity;
}

function hinge(x: Float64Array, y: Float64Array, c: number) {
  const start = x[0]!;
  const fit = project([x.map(() => 1), x.map((v) => v - start), x.map((v) => Math.max(0, v - c))], y);
  if (fit === null) return null;
  const [level, slope1, change] = fit.coefficients as [number, number, number];
  return { intercept: level - slope1 * start, slope1, slope2: slope1 + change, residuals: fit.residuals, rss: fit.rss };
}

/** Least squares on a few well-scaled columns by normal equations. */
function project(columns: readonly Float64Array[], y: Float64Array) {
  const normal = columns.map((a) => columns.map((b) => a.reduce((sum, v, i) => sum + v * b[i]!, 0)));
  const inverse = invertPositiveDefinite(normal)?.inverse;
  if (inverse === undefined) return null;
  const right = columns.map((a) => a.reduce((sum, v, i) => sum + v * y[i]!, 0));
  const coefficients = inverse.map((row) => row.reduce((sum, v, i) => sum + v * right[i]!, 0));
  const residuals = y.map((v, i) => v - columns.reduce((sum, a, j) => sum + a[i]! * coefficients[j]!, 0));
  return { coefficients, residuals, rss: residuals.reduce((sum, r) => sum + r * r, 0) };
}

/** Lowest point of f over the intervals left and right of x[best], each by golden section: f is smooth inside each. */
function lowest(f: (c: number) => number, x: Float64Array, best: number): number {
  const found = [x[best]!, golden(f, x[best - 1]!, x[best]!), golden(f, x[best]!, x[best + 1]!)];
  return found.reduce((a, b) => (f(b) < f(a) ? b : a));
}

function golden(f: (c: number) => number, from: number, to: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  for (let i = 0; i < 40; i++) {
    const left = b - ratio * (b - a);
    const right = a + ratio * (b - a);
    if (f(left) < f(right)) b = right;
    else a = left;
  }
  return 0.5 * (a + b);
}

/** √(s²·[(JᵀJ)⁻¹]) for the slope difference, J holding the breakpoint's column −difference·[x > c] too. */
function uOfDifference(x: Float64Array, c: number, difference: number, rss: number): number {
  const start = x[0]!;
  const columns = [
    x.map(() => 1),
    x.map((v) => v - start),
    x.map((v) => Math.max(0, v - c)),
    x.map((v) => (v > c ? -difference : 0)),
  ];
  const normal = columns.map((a) => columns.map((b) => a.reduce((sum, v, i) => sum + v * b[i]!, 0)));
  const variance = invertPositiveDefinite(normal)?.inverse[2]?.[2] ?? Infinity;
  return Math.sqrt((rss / Math.max(1, x.length - 4)) * variance);
}
