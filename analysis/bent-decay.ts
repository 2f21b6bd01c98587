import type { CornerBlocks } from "./corner-blocks.ts";
import { logWeight } from "./corner-blocks.ts";
import { exp } from "./exp.ts";
import { runningMedian5 } from "./median.ts";
import { invertPositiveDefinite } from "./positive-definite.ts";

/** Blocks of a decay, t from its first, and the standard error of each that weighs it the same in every curve compared. */
export interface WeighedBlocks {
  readonly tHours: Float64Array;
  readonly values: Float64Array;
  readonly errors: Float64Array;
}

/** μ(t) = B + exp(lnA − Σ θⱼ·sⱼ(t)), fitted. */
export interface BentDecay {
  readonly lnA: number;
  readonly rates: readonly number[];
  readonly background: number;
  /** (value − μ)/error of each block. */
  readonly residuals: Float64Array;
  readonly rss: number;
}

const ENOUGH = 1e-4;

export function weigh(blocks: CornerBlocks): WeighedBlocks {
  const start = blocks.tHours[0] ?? 0;
  const level = runningMedian5(blocks.values).map((v) => Math.max(v, blocks.stepQ, Number.MIN_VALUE));
  return {
    tHours: blocks.tHours.map((t) => t - start),
    values: blocks.values,
    errors: level.map((v) => v / Math.sqrt(logWeight(blocks, v, 0))),
  };
}

/**
 * Weighted least squares of a decay whose logarithm above B is bent as the shapes say (the first is t itself), from a
 * start, by Gauss and Newton with halved steps, 0 ≤ B ≤ mostB. Null where the shapes cannot be told apart.
 */
export function fitBentDecay(
  { tHours, values, errors }: WeighedBlocks,
  shapes: readonly Float64Array[],
  start: { lnA: number; rates: readonly number[]; background: number },
  mostB: number,
  mostRounds = 12,
): BentDecay | null {
  const at = (theta: readonly number[]): BentDecay => {
    const [lnA, background, ...rates] = theta as [number, number, ...number[]];
    const residuals = values.map((v, i) => (v - background - exp(lnA - exponent(shapes, rates, i))) / errors[i]!);
    return { lnA, background, rates, residuals, rss: residuals.reduce((sum, r) => sum + r * r, 0) };
  };
  let theta = [start.lnA, Math.min(start.background, mostB), ...start.rates];
  let fit = at(theta);
  for (let round = 0; round < mostRounds; round++) {
    const { lnA, rates, residuals } = fit;
    const above = tHours.map((_, i) => exp(lnA - exponent(shapes, rates, i)) / errors[i]!);
    const columns = [above, errors.map((e) => 1 / e), ...shapes.map((s) => s.map((v, i) => -v * above[i]!))];
    const step = stepOf(columns, residuals, theta, mostB);
    if (step === null) return round > 0 ? fit : null;
    let share = 1;
    let next = fit;
    while (share > 0.01) {
      const moved = theta.map((v, j) => v + share * step[j]!);
      moved[1] = Math.min(mostB, Math.max(0, moved[1]!));
      next = at(moved);
      if (next.rss <= fit.rss) {
        theta = moved;
        break;
      }
      share /= 2;
    }
    if (!(next.rss < fit.rss)) return fit;
    const gain = fit.rss - next.rss;
    fit = next;
    if (gain < ENOUGH * fit.rss) return fit;
  }
  return fit;
}

function exponent(shapes: readonly Float64Array[], rates: readonly number[], i: number): number {
  let sum = 0;
  for (let j = 0; j < shapes.length; j++) sum += rates[j]! * shapes[j]![i]!;
  return sum;
}

/** Gauss and Newton's step; where it would take B over the bound it stands at, B's column is left out. */
function stepOf(
  columns: readonly Float64Array[],
  residuals: Float64Array,
  theta: readonly number[],
  mostB: number,
): number[] | null {
  const solve = (kept: readonly number[]) => {
    const of = kept.map((j) => columns[j]!);
    const dot = (a: Float64Array, b: Float64Array) => {
      let sum = 0;
      for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
      return sum;
    };
    const inverse = invertPositiveDefinite(of.map((a) => of.map((b) => dot(a, b))))?.inverse;
    if (inverse === undefined) return null;
    const right = of.map((a) => dot(a, residuals));
    const step = theta.map(() => 0);
    kept.forEach((j, row) => {
      step[j] = inverse[row]!.reduce((sum, v, i) => sum + v * right[i]!, 0);
    });
    return step;
  };
  const all = columns.map((_, j) => j);
  const step = solve(all);
  const b = theta[1]!;
  const pinned = step === null || (b <= 0 && step[1]! < 0) || (b >= mostB && step[1]! > 0);
  return pinned ? solve(all.filter((j) => j !== 1)) : step;
}
