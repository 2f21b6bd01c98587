import {
  type BackgroundPrior,
  type DecayColumns,
  type DecayData,
  type DecayLinearisation,
  dot,
  lineariseDecay,
} from "./decay-model.ts";
import { type DecayNoise, emptyWhitened, type Whitened } from "./decay-noise.ts";
import { exp } from "./exp.ts";
import { log } from "./log.ts";
import { invertPositiveDefinite } from "./positive-definite.ts";

/** Weak priors on the logarithms of the noise parameters: centre and SD, in the order sigma, tau, white, counting. */
export interface NoisePrior {
  readonly centre: readonly number[];
  readonly sd: readonly number[];
  /** Least and greatest ln τ. */
  readonly tauBounds: readonly [number, number];
}

/** How long a counter's errors are taken to last before the readings are asked. */
export const ASSUMED_MEMORY_H = 60 / 3600;

/** Priors of the method: σ 0.02 ± 1.0, τ 60 s ± 1.0 (1 s to T/2), w 0.003 ± 1.5, κ by the kind of counter. */
export function noisePrior(windowH: number, countingQ: { centre: number; sd: number }): NoisePrior {
  const shortest = log(1 / 3600);
  const tauBounds: [number, number] = [shortest, Math.max(shortest, log(windowH / 2))];
  return {
    centre: [log(0.02), log(ASSUMED_MEMORY_H), log(0.003), log(countingQ.centre)],
    sd: [1, 1, 1.5, countingQ.sd],
    tauBounds,
  };
}

export function noiseFromLogs(p: readonly number[]): DecayNoise {
  const [sigma, tauH, white, countingQ] = p.map(exp) as [number, number, number, number];
  return { sigma, tauH, white, countingQ };
}

/** How the restricted likelihood, with the priors on the noise, changes with the four logarithms. */
export interface NoiseSlope {
  readonly gradient: readonly number[];
  /** ½Σ ∂ln F ∂ln F + Σ ∂v∂v/F + prior: Fisher's information of the four logarithms. */
  readonly information: readonly (readonly number[])[];
  /** Degrees of freedom of u²(k) after Satterthwaite: 2u⁴/Var(u²). */
  readonly dofOfK: number;
}

/** What passes over as many rows write to, so that none of them has to allocate. */
export interface NoiseScratch {
  readonly base: Whitened;
  readonly shifted: Whitened;
  readonly dLogF: readonly Float64Array[];
  readonly dInnovation: readonly Float64Array[];
}

export function noiseScratch(rows: number): NoiseScratch {
  const four = () => [0, 1, 2, 3].map(() => new Float64Array(rows));
  return { base: emptyWhitened(rows), shifted: emptyWhitened(rows), dLogF: four(), dInnovation: four() };
}

const DELTA = 0.05;

/** Minus the log-density of the noise's prior: with the restricted likelihood what is minimised. */
export function priorPenalty(logs: readonly number[], { centre, sd }: NoisePrior): number {
  return logs.reduce((sum, v, p) => sum + 0.5 * ((v - centre[p]!) / sd[p]!) ** 2, 0);
}

/** Gradient and Fisher's information by four passes at ψ + 0.05 beside the base pass at ψ. Null where they say nothing. */
export function noiseSlope(
  data: DecayData,
  columns: DecayColumns,
  base: DecayLinearisation,
  logs: readonly number[],
  prior: NoisePrior,
  background: BackgroundPrior,
  { shifted, dLogF, dInnovation }: NoiseScratch,
): NoiseSlope | null {
  const gradient: number[] = [];
  const information: number[][] = [];
  const variance = base.covariance[1]![1]!;
  const dVariance: number[] = [];
  for (let p = 0; p < 4; p++) {
    const moved = [...logs];
    moved[p]! += DELTA;
    const pass = lineariseDecay(data, columns, noiseFromLogs(moved), background, shifted);
    if (pass === null) return null;
    differentiate(base.whitened, shifted, dLogF[p]!, dInnovation[p]!);
    const row = dLogF
      .slice(0, p + 1)
      .map((other, q) => 0.5 * dot(dLogF[p]!, other) + dot(dInnovation[p]!, dInnovation[q]!));
    // A forward difference is off by ½δ times the curvature, which the information stands in for.
    const slope = (pass.objective - base.objective) / DELTA - 0.5 * DELTA * row[p]!;
    gradient.push(slope + (logs[p]! - prior.centre[p]!) / prior.sd[p]! ** 2);
    row[p]! += 1 / prior.sd[p]! ** 2;
    for (let q = 0; q < p; q++) information[q]!.push(row[q]!);
    information.push(row);
    dVariance.push((pass.covariance[1]![1]! - variance) / DELTA);
  }
  const inverse = invertPositiveDefinite(information)?.inverse;
  if (inverse === undefined) return null;
  const varianceOfVariance = dVariance.reduce((sum, a, p) => sum + a * dot(inverse[p]!, dVariance), 0);
  const dofOfK = varianceOfVariance > 0 ? (2 * variance ** 2) / varianceOfVariance : Infinity;
  return { gradient, information, dofOfK };
}

/** ∂ln F, and ∂v/√F = ∂z + ½z ∂ln F: the innovation's own change, v = z√F being free of that of its scale. */
function differentiate(base: Whitened, shifted: Whitened, dLogF: Float64Array, dInnovation: Float64Array): void {
  const z = base.columns[0]!;
  const zShifted = shifted.columns[0]!;
  for (let i = 0; i < z.length; i++) {
    const [f, fShifted] = [base.variances[i]!, shifted.variances[i]!];
    // ln of a ratio near 1, to third order.
    dLogF[i] = (2 * (fShifted - f)) / (fShifted + f) / DELTA;
    dInnovation[i] = (zShifted[i]! - z[i]!) / DELTA + 0.5 * z[i]! * dLogF[i]!;
  }
}
