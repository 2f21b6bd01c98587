import { type DecayNoise, type Whitened, whiten } from "./decay-noise.ts";
import { exp } from "./exp.ts";
import { invertPositiveDefinite } from "./positive-definite.ts";

/** Parameters of μ(t) = B + A·e^(−kt): ln A, k in 1/h, B ≥ 0; t in hours after the window's start. */
export interface DecayParameters {
  readonly lnA: number;
  readonly kPerH: number;
  readonly background: number;
}

/** What is known of B before the fit, as a normal of this mean and SD; it may depend on the current k. */
export type BackgroundPrior = (kPerH: number) => BackgroundBelief;

export interface BackgroundBelief {
  readonly mean: number;
  readonly sd: number;
  /** ∂mean/∂(the background it was made from) and ∂mean/∂k_natural [unit·h]; 0 or absent where it hangs on neither. */
  readonly perSource?: number;
  readonly perNaturalPerH?: number;
}

/** Readings as the fit sees them: the means of blocks of `perBlock` readings each. */
export interface DecayData {
  readonly tHours: Float64Array;
  readonly values: Float64Array;
  readonly perBlock: number;
  /** How many readings each block averages where not all average `perBlock`. */
  readonly blockSizes?: Float64Array | null;
  readonly stepQ: number;
}

/** The linearised problem at given parameters and noise. */
export interface DecayLinearisation {
  /** Newton step in (ln A, k, B); where B would fall below 0 it is held there and its column dropped. */
  readonly step: readonly [number, number, number];
  /** (JᵀWJ)⁻¹ in the same order, the prior on B included. */
  readonly covariance: readonly (readonly number[])[];
  /** Restricted likelihood, ½[Σ ln F + rᵀWr + ln|JᵀWJ|] at the minimum of the linearised problem. */
  readonly objective: number;
  /** Length of the step in its own metric, √(Δᵀ(JᵀWJ)Δ): 1 is one SD away. */
  readonly distance: number;
  readonly whitened: Whitened;
}

/** Relative residuals and their derivatives at some parameters, before whitening. */
export interface DecayColumns {
  readonly at: DecayParameters;
  readonly expected: Float64Array;
  /** r = (y−μ)/μ and J = (∂μ/∂θ)/μ for ln A, k, B. */
  readonly columns: readonly [Float64Array, Float64Array, Float64Array, Float64Array];
}

export function decayColumns(data: DecayData, at: DecayParameters): DecayColumns {
  const n = data.tHours.length;
  const expected = new Float64Array(n);
  const residual = new Float64Array(n);
  const jA = new Float64Array(n);
  const jK = new Float64Array(n);
  const jB = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const t = data.tHours[i]!;
    const above = exp(at.lnA - at.kPerH * t);
    const mu = at.background + above;
    expected[i] = mu;
    residual[i] = (data.values[i]! - mu) / mu;
    jA[i] = above / mu;
    jK[i] = (-t * above) / mu;
    jB[i] = 1 / mu;
  }
  return { at, expected, columns: [residual, jA, jK, jB] };
}

/**
 * Solves JᵀWr = 0 for one step from where the columns were taken, the weights not differentiated. Null where the
 * readings do not determine the parameters. `into` is an earlier answer's `whitened` that may be written over.
 */
export function lineariseDecay(
  data: DecayData,
  { at, expected, columns }: DecayColumns,
  noise: DecayNoise,
  prior: BackgroundPrior | null,
  into?: Whitened,
): DecayLinearisation | null {
  const { tHours, perBlock, blockSizes, stepQ } = data;
  const whitened = whiten(noise, { tHours, expected, perBlock, blockSizes, stepQ }, columns, into);
  const { normal, gradient, squares } = normalEquations(whitened.columns);
  let quadratic = squares;
  if (prior) {
    const { mean, sd } = prior(at.kPerH);
    const off = mean - at.background;
    normal[2]![2]! += 1 / sd ** 2;
    gradient[2]! += off / sd ** 2;
    quadratic += (off / sd) ** 2;
  }
  const full = invertPositiveDefinite(normal);
  if (full === null) return null;
  const { inverse } = full;
  let step: [number, number, number] = [
    dot(inverse[0]!, gradient),
    dot(inverse[1]!, gradient),
    dot(inverse[2]!, gradient),
  ];
  let covariance = inverse;
  if (at.background + step[2] < 0) {
    // B may not fall below 0: it is held there and the other two follow, by what they owe to it.
    const short = (-at.background - step[2]) / inverse[2]![2]!;
    step = [step[0] + short * inverse[0]![2]!, step[1] + short * inverse[1]![2]!, -at.background];
    covariance = heldAtZero(inverse);
  }
  const length2 = step[0] * dot(normal[0]!, step) + step[1] * dot(normal[1]!, step) + step[2] * dot(normal[2]!, step);
  const explained = 2 * dot(step, gradient) - length2;
  const objective = 0.5 * (whitened.logDet + quadratic - explained + full.logDet);
  return { step, covariance, objective, distance: Math.sqrt(length2), whitened };
}

/** JᵀWJ, JᵀWr and rᵀWr from the whitened r and J. */
function normalEquations(whitened: readonly Float64Array[]) {
  const [r, a, k, b] = whitened as [Float64Array, Float64Array, Float64Array, Float64Array];
  let [rr, ra, rk, rb, aa, ak, ab, kk, kb, bb] = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < r.length; i++) {
    const ri = r[i]!;
    const ai = a[i]!;
    const ki = k[i]!;
    const bi = b[i]!;
    rr += ri * ri;
    ra += ri * ai;
    rk += ri * ki;
    rb += ri * bi;
    aa += ai * ai;
    ak += ai * ki;
    ab += ai * bi;
    kk += ki * ki;
    kb += ki * bi;
    bb += bi * bi;
  }
  const normal = [
    [aa, ak, ab],
    [ak, kk, kb],
    [ab, kb, bb],
  ];
  return { normal, gradient: [ra, rk, rb], squares: rr };
}

/**
 * Covariance where B is held at its bound. Dropping the column would claim B known to be 0; the true B lies above the
 * bound, so half its free variance is kept (that of a normal cut at its mean is 1 − 2/π = 0.36 of it).
 */
function heldAtZero(free: readonly (readonly number[])[]): number[][] {
  const vB = free[2]![2]!;
  return free.map((row, i) => row.map((c, j) => c - 0.5 * ((free[i]![2]! * free[2]![j]!) / vB)));
}

export function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
