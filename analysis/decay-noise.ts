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
  readonly stepQ: number;
}

/** Columns multiplied by W^½ (one triangular root of the inverse covariance), and ln of the covariance's determinant. */
export interface Whitened {
  readonly columns: readonly Float64Array[];
  readonly logDet: number;
  /** ln of each innovation variance F: their sum is logDet. */
  readonly logF: Float64Array;
}

/**
 * One pass of a scalar Kalman filter over the Ornstein–Uhlenbeck state: with φ = e^(−Δt/τ) the state's variance goes
 * P → φ²P + σ²(1−φ²), F = P + R with R = (w² + κ/μ + q²/12μ²)/m of a block of m readings, and each column's innovation
 * is divided by √F. Right for uneven sampling; O(n). (Kalman filter of a state-space model, textbook; checked against
 * dense Cholesky algebra.)
 */
export function whiten(noise: DecayNoise, grid: NoiseGrid, columns: readonly Float64Array[]): Whitened {
  const { tHours, expected, perBlock, stepQ } = grid;
  const n = tHours.length;
  const out = columns.map(() => new Float64Array(n));
  const state = new Float64Array(columns.length);
  const logF = new Float64Array(n);
  const variance = noise.sigma * noise.sigma;
  const steady = noise.white * noise.white;
  let predicted = variance;
  let logDet = 0;
  let lastStep = Number.NaN;
  let phi = 0;
  for (let i = 0; i < n; i++) {
    if (i > 0) {
      const step = tHours[i]! - tHours[i - 1]!;
      // Even sampling repeats the step, and the exponential is what costs.
      if (step !== lastStep) phi = Math.exp(-step / noise.tauH);
      lastStep = step;
      predicted = phi * phi * predicted + variance * (1 - phi * phi);
      for (let c = 0; c < state.length; c++) state[c]! *= phi;
    }
    const mu = expected[i]!;
    const r = (steady + noise.countingQ / mu + (stepQ * stepQ) / (12 * mu * mu)) / perBlock;
    const f = predicted + r;
    const gain = predicted / f;
    const root = 1 / Math.sqrt(f);
    for (let c = 0; c < state.length; c++) {
      const innovation = columns[c]![i]! - state[c]!;
      out[c]![i] = innovation * root;
      state[c]! += gain * innovation;
    }
    predicted *= 1 - gain;
    logF[i] = Math.log(f);
    logDet += logF[i]!;
  }
  return { columns: out, logDet, logF };
}
