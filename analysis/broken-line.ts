import { invertPositiveDefinite } from "./positive-definite.ts";

export interface BrokenLine {
  readonly breakpoint: number;
  readonly intercept: number;
  readonly slope1: number;
  readonly slope2: number;
  /** Standard errors of slope2 − slope1 and of the breakpoint, all four free, residuals taken as independent. */
  readonly uSlopeDifference: number;
  readonly uBreakpoint: number;
  /** √w·(y − fit) of each point. */
  readonly residuals: Float64Array;
  /** Σ w·(y − fit)². */
  readonly rss: number;
}

/** Points each side must have: a slope over fewer is noise. */
const FEWEST_A_SIDE = 3;

/**
 * Best continuous broken line y = intercept + slope1·x + (slope2−slope1)·max(0, x−breakpoint), x rising: tried as
 * breakpoints are every point, and between two neighbours the crossing of the lines through the points on either side.
 * Null with too few points. Weights 1 unless given. (Segmented regression by exhaustive search, exact; with sums from each
 * point to the end one try is O(1).)
 */
export function fitBrokenLine(x: Float64Array, y: Float64Array, w = x.map(() => 1)): BrokenLine | null {
  const n = x.length;
  const sums = sumsToEnd(x, y, w);
  let best: { c: number; first: number; rss: number } | null = null;
  const attempt = (c: number, first: number) => {
    const rss = hinge(sums, c, first)?.rss ?? Infinity;
    if (rss < (best?.rss ?? Infinity)) best = { c, first, rss };
  };
  for (let i = FEWEST_A_SIDE - 1; i <= n - FEWEST_A_SIDE; i++) {
    attempt(x[i]!, i);
    const c = crossing(sums, i + 1);
    if (c > x[i]! && c < x[i + 1]!) attempt(c, i + 1);
  }
  return best && asBrokenLine(x, y, w, sums, best);
}

function asBrokenLine(
  x: Float64Array,
  y: Float64Array,
  w: Float64Array,
  sums: Sums,
  { c: breakpoint, first }: { c: number; first: number },
): BrokenLine {
  const { intercept, slope1, slope2 } = hinge(sums, breakpoint, first)!;
  const residuals = y.map((v, i) => {
    const fitted = intercept + slope1 * x[i]! + (slope2 - slope1) * Math.max(0, x[i]! - breakpoint);
    return Math.sqrt(w[i]!) * (v - fitted);
  });
  const rss = residuals.reduce((sum, r) => sum + r * r, 0);
  const errors = standardErrors(x, w, breakpoint, slope2 - slope1, rss);
  return { breakpoint, intercept, slope1, slope2, ...errors, residuals, rss };
}

/** Weighted RSS of the best cubic through the points: the smooth curve with as many parameters as a broken line. */
export function cubicRss(x: Float64Array, y: Float64Array, w = x.map(() => 1)): number {
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
  const inverse = invertPositiveDefinite(normalOf(columns, w))?.inverse;
  if (inverse === undefined) return Infinity;
  const right = columns.map((a) => a.reduce((sum, v, i) => sum + w[i]! * v * y[i]!, 0));
  const coefficients = inverse.map((row) => row.reduce((sum, v, i) => sum + v * right[i]!, 0));
  return y.reduce((sum, v, i) => {
    const residual = v - columns.reduce((fit, a, j) => fit + a[i]! * coefficients[j]!, 0);
    return sum + w[i]! * residual * residual;
  }, 0);
}

interface Sums {
  readonly xMiddle: number;
  readonly yMiddle: number;
  /** Σ over points i and later of w times 1, x, x², y, xy, y²; x and y counted from their middles against cancellation. */
  readonly of: readonly Float64Array[];
}

type SixSums = [number, number, number, number, number, number];

function sumsToEnd(x: Float64Array, y: Float64Array, w: Float64Array): Sums {
  const n = x.length;
  const xMiddle = 0.5 * ((x[0] ?? 0) + (x[n - 1] ?? 0));
  const yMiddle = 0.5 * ((y[0] ?? 0) + (y[n - 1] ?? 0));
  const of = Array.from({ length: 6 }, () => new Float64Array(n + 1));
  for (let i = n - 1; i >= 0; i--) {
    const [a, b, weight] = [x[i]! - xMiddle, y[i]! - yMiddle, w[i]!];
    [1, a, a * a, b, a * b, b * b].forEach((v, j) => {
      of[j]![i] = of[j]![i + 1]! + weight * v;
    });
  }
  return { xMiddle, yMiddle, of };
}

/** Least squares on 1, x and max(0, x−c), by normal equations; `first` is the first point at or after c. */
function hinge({ xMiddle, yMiddle, of }: Sums, c: number, first: number) {
  const at = c - xMiddle;
  const [n, sx, sxx, sy, sxy, syy] = of.map((s) => s[0]!) as SixSums;
  const [m, tx, txx, ty, txy] = of.map((s) => s[first]!) as SixSums;
  const [h, xh, hh, hy] = [tx - at * m, txx - at * tx, txx - 2 * at * tx + at * at * m, txy - at * ty];
  const inverse = invertPositiveDefinite([
    [n, sx, h],
    [sx, sxx, xh],
    [h, xh, hh],
  ])?.inverse;
  if (inverse === undefined) return null;
  const right = [sy, sxy, hy];
  const [level, slope1, change] = inverse.map((row) => row.reduce((sum, v, i) => sum + v * right[i]!, 0)) as SixSums;
  const rss = syy - level * sy - slope1 * sxy - change * hy;
  return { intercept: level + yMiddle - slope1 * xMiddle, slope1, slope2: slope1 + change, rss };
}

/** Where the line through the points before `first` meets that through the rest; NaN where a side has no line. */
function crossing({ xMiddle, of }: Sums, first: number): number {
  const line = ([n, sx, sxx, sy, sxy]: SixSums) => {
    const slope = (n * sxy - sx * sy) / (n * sxx - sx * sx);
    return { slope, level: (sy - slope * sx) / n };
  };
  const before = line(of.map((s) => s[0]! - s[first]!) as SixSums);
  const after = line(of.map((s) => s[first]!) as SixSums);
  return xMiddle + (after.level - before.level) / (before.slope - after.slope);
}

function normalOf(columns: readonly Float64Array[], w: Float64Array): number[][] {
  return columns.map((a) => columns.map((b) => a.reduce((sum, v, i) => sum + w[i]! * v * b[i]!, 0)));
}

/** √(s²·[(JᵀWJ)⁻¹]) of slope difference and breakpoint, J holding the breakpoint's column −difference·[x > c] too. */
function standardErrors(x: Float64Array, w: Float64Array, c: number, difference: number, rss: number) {
  const start = x[0]!;
  const columns = [
    x.map(() => 1),
    x.map((v) => v - start),
    x.map((v) => Math.max(0, v - c)),
    x.map((v) => (v > c ? -difference : 0)),
  ];
  const inverse = invertPositiveDefinite(normalOf(columns, w))?.inverse;
  const scatter = Math.sqrt(rss / Math.max(1, x.length - 4));
  const u = (column: number) => scatter * Math.sqrt(inverse?.[column]?.[column] ?? Infinity);
  return { uSlopeDifference: u(2), uBreakpoint: u(3) };
}
