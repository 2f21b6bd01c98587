/** What can be said of a source from its level above the background. */
export type BackgroundNoiseCorrection =
  | { readonly kind: "corrected"; readonly k1Db: number; readonly sensitivity: number }
  | { readonly kind: "upper-bound"; readonly k1Db: number; readonly sensitivity: number }
  | { readonly kind: "not-rated" };

/** Over this difference the background no longer counts; under the next two the figure is a bound, or nothing. */
const NO_CORRECTION_OVER_DB = 15;
const BOUND_UNDER_DB = 6;
const NOT_RATED_UNDER_DB = 3;
const CAP_DB = 1.3;

/**
 * Background-noise correction K₁ [dB], to be taken off the level read; ΔL [dB] is the level with
 * the source on less that with it off. Over 15 dB none; under 6 dB it is capped at 1.3 dB and the corrected level is an
 * upper bound; under 3 dB nothing can be told. ISO 3744 (the limit of 3 dB is this method's).
 * `sensitivity` is ∂L_corrected/∂L_read = 1/(1 − 10^(−0.1ΔL)); that to the background is 1 less it, so that an error both
 * readings share passes unchanged.
 */
export function backgroundNoiseCorrection(differenceDb: number): BackgroundNoiseCorrection {
  // Differences of decimals: 64.1 − 58.1 must count as 6.
  const difference = Math.round(differenceDb * 1e6) / 1e6;
  if (!(difference >= NOT_RATED_UNDER_DB)) return { kind: "not-rated" };
  if (difference > NO_CORRECTION_OVER_DB) return { kind: "corrected", k1Db: 0, sensitivity: 1 };
  if (difference < BOUND_UNDER_DB) return { kind: "upper-bound", k1Db: CAP_DB, sensitivity: 1 };
  return { kind: "corrected", k1Db: k1Db(difference), sensitivity: 1 / (1 - 10 ** (-0.1 * difference)) };
}

/**
 * K₁ = −10·lg(1 − 10^(−0.1ΔL)) [dB]: what a background ΔL below the sum of source and background adds to the source.
 * ISO 3744 (from memory; its figures computed).
 */
export function k1Db(differenceDb: number): number {
  return -10 * Math.log10(1 - 10 ** (-0.1 * differenceDb));
}
