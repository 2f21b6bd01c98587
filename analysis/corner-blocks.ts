import type { Readings } from "./readings.ts";

/** Readings of a decay averaged into blocks: what corners are looked for in. */
export interface CornerBlocks {
  readonly tHours: Float64Array;
  readonly values: Float64Array;
  readonly perBlock: number;
  readonly stepQ: number;
  readonly quantity: Readings["quantity"];
}

const MOST_BLOCKS = 150;
/** Relative error of a block that averaging does not lessen: the estimator's prior for errors with a memory. */
const LASTING_ERROR = 0.02;

/** At most 150 blocks of equally many readings; what is left over at the end is left out. */
export function cornerBlocks({ tS, values, stepQ, quantity }: Readings): CornerBlocks {
  const perBlock = Math.max(1, Math.ceil(tS.length / MOST_BLOCKS));
  const count = Math.floor(tS.length / perBlock);
  const average = (v: Float64Array) =>
    Float64Array.from({ length: count }, (_, b) => {
      let sum = 0;
      for (let i = b * perBlock; i < (b + 1) * perBlock; i++) sum += v[i]!;
      return sum / perBlock;
    });
  return { tHours: average(tS).map((t) => t / 3600), values: average(values), perBlock, stepQ, quantity };
}

/**
 * Weight of a block's ln(C−B), 1 where only the lasting error s counts: s²/var, with
 * var = (C/(C−B))²·(s² + (κ/C + q²/12C²)/m), m readings a block, κ = q for counts and 0.05 q for mass.
 */
export function logWeight({ perBlock, stepQ: q, quantity }: CornerBlocks, value: number, background: number): number {
  const above = value - background;
  const counting = ((quantity === "mass" ? 0.05 * q : q) * value + (q * q) / 12) / perBlock;
  return (LASTING_ERROR * above) ** 2 / ((LASTING_ERROR * value) ** 2 + counting);
}

/**
 * √((1+ρ)/(1−ρ)): how much wider a line's errors are when neighbours are correlated by ρ (first-order autoregression).
 * A curve with several bends follows its errors, which hides some of their memory: where told so, twice what a mean hides,
 * 2(1+3ρ)/n, is given back (Kendall 1954 for the mean, from memory; the factor by trial on simulated decays).
 */
export function memoryFactor(residuals: Float64Array, mostRho = 0.95, followed = false): number {
  let power = 0;
  let lagged = 0;
  for (let i = 0; i < residuals.length; i++) {
    power += residuals[i]! ** 2;
    if (i > 0) lagged += residuals[i]! * residuals[i - 1]!;
  }
  const seen = power > 0 ? lagged / power : 0;
  const rho = Math.min(mostRho, Math.max(0, seen + (followed ? (2 + 6 * seen) / residuals.length : 0)));
  return Math.sqrt((1 + rho) / (1 - rho));
}
