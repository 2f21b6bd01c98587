import type { DecayNoise } from "./decay-noise.ts";
import type { Principle } from "./trial.ts";

/** What is stated of a counter's noise beforehand; null where nothing is. Relative SDs, seconds, particles. */
export interface StatedNoise {
  readonly white: number | null;
  readonly memory: number | null;
  readonly memoryTimeS: number | null;
  /** Particles that one reading of clean air counts. */
  readonly countsInCleanAir: number | null;
}

interface Kind {
  readonly sigma: number;
  readonly tauS: number;
  readonly white: number;
  /** Particles counted in one second of clean air; null for a counter that weighs. */
  readonly countsPerS: number | null;
}

/** Step of a counter that weighs, in levels of clean air: a tenth of a µg/m³ where that holds five (common practice, no source). */
const MASS_STEP = 0.02;
/**
 * σ and τ where no better is known are the centres of the fit's priors; the rest is common practice, no source: clean
 * indoor air shows an optical counter some ten particles a second, a condensation counter a hundred times as many.
 */
const KINDS: Record<Principle, Kind> = {
  optical_counter: { sigma: 0.02, tauS: 60, white: 0.01, countsPerS: 10 },
  condensation_counter: { sigma: 0.01, tauS: 30, white: 0.005, countsPerS: 1000 },
  photometer: { sigma: 0.02, tauS: 60, white: 0.01, countsPerS: null },
  other: { sigma: 0.03, tauS: 60, white: 0.01, countsPerS: 10 },
};
/** Counting of a counter that weighs: κ = 0.05 q, as in the fit. */
const WEIGHING_COUNTS = 0.05;
/** The fit's own least κ, so that nothing is claimed to be free of noise. */
const LEAST_KAPPA = 1e-6;

/**
 * Noise to expect of a counter, concentrations relative to the clean air's level: relative SDs σ (with the memory τ) and w,
 * κ = 1/(particles one reading of clean air counts), so that counting has the relative variance κ/μ. Poisson.
 */
export function expectedCounterNoise(
  principle: Principle,
  intervalS: number,
  weighs: boolean,
  stated: StatedNoise,
): { noise: DecayNoise; stepQ: number } {
  const kind = KINDS[principle];
  const counts = stated.countsInCleanAir ?? (weighs || kind.countsPerS === null ? null : kind.countsPerS * intervalS);
  return {
    noise: {
      sigma: stated.memory ?? kind.sigma,
      tauH: (stated.memoryTimeS ?? kind.tauS) / 3600,
      white: stated.white ?? kind.white,
      countingQ: Math.max(LEAST_KAPPA, counts === null ? WEIGHING_COUNTS * MASS_STEP : 1 / counts),
    },
    stepQ: weighs ? MASS_STEP : 0,
  };
}
