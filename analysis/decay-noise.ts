import { exp, expm1, sinh, tanh } from "./exp.ts";
import { log } from "./log.ts";

/**
 * Noise of relative residuals: a part with memory (Ornstein–Uhlenbeck: SD sigma, time constant tauH in hours), a white
 * part of SD white, and counting of variance countingQ/μ; sigma and white relative, countingQ in the channel's unit.
 */
export interface DecayNoise {
  readonly sigma: number;
  readonly tauH: number;
  readonly white: number;
  readonly countingQ: number;
}

/** Where the noise is looked at: times, expected values, how many readings each block averages, the counter's step. */
export interface NoiseGrid {
  readonly tHours: Float64Array;
  readonly expected: Float64Array;
  readonly perBlock: number;
  /** How many readings each block averages where not all average `perBlock`. */
  readonly blockSizes?: Float64Array | null;
  readonly stepQ: number;
}

/** Columns multiplied by W^½ (one triangular root of the inverse covariance), and ln of the covariance's determinant. */
export interface Whitened {
  readonly columns: readonly Float64Array[];
  /** Σ ln F. */
  logDet: number;
  /** F, the variance of each innovation. */
  readonly variances: Float64Array;
}

/** Steps that differ by rounding alone share their exponential, which is what costs. */
export const SAME_STEP = 1e-11;
/** Blocks whose lengths differ by less than this share what averaging does to their memory. */
const SAME_BLOCK = 0.01;
/** ln is taken of products of F kept within these: a row's own logarithm would cost as much as the rest of the row. */
const [LEAST_PRODUCT, MOST_PRODUCT] = [1e-200, 1e200];

/**
 * One pass of a scalar Kalman filter over the Ornstein–Uhlenbeck state s, of which a block's mean shows c·s and keeps the
 * variance h·σ² (blockMemory; both 1 for a single reading). D is how much of σ² the rows before explain: over a step
 * D → φ²D with φ = e^(−Δt/τ); a row's innovation has the variance F = hσ² − c²D + R, R = (w² + κ/μ + q²/12μ²)/m for m
 * readings, and adds c²(σ²−D)²/F to D. Each column's innovation is divided by √F. Right for uneven sampling; O(n). At most
 * four columns (r and J); `into` is an earlier answer of as many rows that is no longer needed. (Kalman filter of a
 * state-space model, textbook; checked against dense Cholesky algebra.)
 */
export function whiten(
  noise: DecayNoise,
  grid: NoiseGrid,
  columns: readonly Float64Array[],
  into: Whitened = emptyWhitened(grid.tHours.length, columns.length),
): Whitened {
  const { tHours, expected, perBlock, blockSizes, stepQ } = grid;
  const { variances } = into;
  const n = tHours.length;
  const unused = columns.length < 4 ? new Float64Array(n) : variances;
  const [a, b = unused, c = unused, d = unused] = columns as [Float64Array];
  const [outA, outB = unused, outC = unused, outD = unused] = into.columns as [Float64Array];
  let stateA = 0;
  let stateB = 0;
  let stateC = 0;
  let stateD = 0;
  const variance = noise.sigma * noise.sigma;
  const steady = noise.white * noise.white;
  const rounding = (stepQ * stepQ) / 12;
  let explained = 0;
  let phi = 0;
  let step = Infinity;
  let lastStep = Number.NaN;
  let lastBlockH = 0;
  let lastSize = 1;
  let shown = 1;
  let kept = 1;
  let logDet = 0;
  let product = 1;
  for (let i = 0; i < n; i++) {
    const nextStep = i + 1 < n ? tHours[i + 1]! - tHours[i]! : step;
    if (i > 0) {
      if (!(Math.abs(step - lastStep) <= SAME_STEP * step)) {
        phi = exp(-step / noise.tauH);
        lastStep = step;
      }
      explained *= phi * phi;
    }
    const size = blockSizes ? blockSizes[i]! : perBlock;
    const blockH = Math.min(step, nextStep);
    if (size !== lastSize || (size > 1 && Math.abs(blockH - lastBlockH) > SAME_BLOCK * lastBlockH)) {
      ({ shown, kept } = blockMemory(size, blockH / noise.tauH));
      lastSize = size;
      lastBlockH = blockH;
    }
    const perMu = 1 / expected[i]!;
    const random = (steady + (noise.countingQ + rounding * perMu) * perMu) / size;
    const f = kept * variance - shown * shown * explained + random;
    const gain = (shown * (variance - explained)) / f;
    const perRoot = 1 / Math.sqrt(f);
    stateA *= phi;
    stateB *= phi;
    stateC *= phi;
    stateD *= phi;
    const offA = a[i]! - shown * stateA;
    const offB = b[i]! - shown * stateB;
    const offC = c[i]! - shown * stateC;
    const offD = d[i]! - shown * stateD;
    outA[i] = offA * perRoot;
    outB[i] = offB * perRoot;
    outC[i] = offC * perRoot;
    outD[i] = offD * perRoot;
    stateA += gain * offA;
    stateB += gain * offB;
    stateC += gain * offC;
    stateD += gain * offD;
    explained += gain * shown * (variance - explained);
    variances[i] = f;
    product *= f;
    if (product < LEAST_PRODUCT || product > MOST_PRODUCT) {
      logDet += log(product);
      product = 1;
    }
    step = nextStep;
  }
  into.logDet = logDet + log(product);
  return into;
}

/** Over this many time constants nothing is remembered, and cosh overflows. */
const MOST_TIME_CONSTANTS = 300;

/**
 * The mean of m readings spread evenly over x time constants: what it shows of the state at its middle,
 * c = sinh(x/2)/(m·sinh(x/2m)), and its variance over σ², h = coth(x/2m)/m − (1 − e^(−x))/(2m²·sinh²(x/2m)). Sums of the
 * exponential correlations of the readings. Two such means covary by c²σ²e^(−Δt/τ), more than points would against their
 * variance: taken for points, a memory seems longer by half.
 */
function blockMemory(m: number, x: number): { shown: number; kept: number } {
  if (m === 1) return { shown: 1, kept: 1 };
  const length = Math.min(x, MOST_TIME_CONSTANTS);
  const perReading = sinh(length / (2 * m));
  const shown = sinh(length / 2) / (m * perReading);
  const kept = 1 / (m * tanh(length / (2 * m))) + expm1(-length) / (2 * (m * perReading) ** 2);
  return { shown, kept };
}

export function emptyWhitened(rows: number, columns = 4): Whitened {
  return {
    columns: Array.from({ length: columns }, () => new Float64Array(rows)),
    logDet: 0,
    variances: new Float64Array(rows),
  };
}
