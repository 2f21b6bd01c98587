import {
  type BackgroundPrior,
  type DecayColumns,
  type DecayData,
  type DecayLinearisation,
  lineariseDecay,
} from "./decay-model.ts";
import type { DecayNoise } from "./decay-noise.ts";
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
  const shortest = Math.log(1 / 3600);
  const tauBounds: [number, number] = [shortest, Math.max(shortest, Math.log(windowH / 2))];
  return {
    centre: [Math.log(0.02), Math.log(ASSUMED_MEMORY_H), Math.log(0.003), Math.log(countingQ.centre)],
    sd: [1, 1, 1.5, countingQ.sd],
    tauBounds,
  };
}

export function noiseFromLogs(p: readonly number[]): DecayNoise {
  const [sigma, tauH, white, countingQ] = p.map(Math.exp) as [number, number, number, number];
  return { sigma, tauH, white, countingQ };
}

export interface NoiseStep {
  readonly base: DecayLinearisation;
  /** Restricted likelihood plus the priors on the noise: what is minimised. */
  readonly objective: number;
  readonly gradient: readonly number[];
  /** ½Σ ∂ln F ∂ln F + Σ ∂v∂v/F + prior: Fisher's information of the four logarithms. */
  readonly information: readonly (readonly number[])[];
  /** Degrees of freedom of u²(k) after Satterthwaite: 2u⁴/Var(u²). */
  readonly dofOfK: number;
}

const DELTA = 0.05;

/** Restricted likelihood, its gradient and Fisher's information by one base pass and four passes at ψ + 0.05. */
export function noiseStep(
  data: DecayData,
  columns: DecayColumns,
  logs: readonly number[],
  prior: NoisePrior,
  background: BackgroundPrior,
): NoiseStep | null {
  const base = lineariseDecay(data, columns, noiseFromLogs(logs), background);
  if (base === null) return null;
  const shifted: DecayLinearisation[] = [];
  for (let i = 0; i < 4; i++) {
    const pass = lineariseDecay(
      data,
      columns,
      noiseFromLogs(logs.map((p, j) => p + (i === j ? DELTA : 0))),
      background,
    );
    if (pass === null) return null;
    shifted.push(pass);
  }
  const z = base.whitened.columns[0]!;
  const dLogF = shifted.map((s) => s.whitened.logF.map((f, i) => (f - base.whitened.logF[i]!) / DELTA));
  // v = z√F, so ∂v/√F = ∂z + ½z ∂ln F: the innovation's own change, free of that of its scale.
  const dV = shifted.map((s, p) =>
    s.whitened.columns[0]!.map((zShifted, i) => (zShifted - z[i]!) / DELTA + 0.5 * z[i]! * dLogF[p]![i]!),
  );
  const likelihoodInformation = dLogF.map((a, p) =>
    dLogF.map((b, q) => {
      let sum = 0;
      const va = dV[p]!;
      const vb = dV[q]!;
      for (let i = 0; i < z.length; i++) sum += 0.5 * a[i]! * b[i]! + va[i]! * vb[i]!;
      return sum;
    }),
  );
  const information = likelihoodInformation.map((row, p) =>
    row.map((v, q) => v + (p === q ? 1 / prior.sd[p]! ** 2 : 0)),
  );
  const gradient = shifted.map((s, p) => {
    // A forward difference is off by ½δ times the curvature, which the information stands in for.
    const slope = (s.objective - base.objective) / DELTA - 0.5 * DELTA * likelihoodInformation[p]![p]!;
    return slope + (logs[p]! - prior.centre[p]!) / prior.sd[p]! ** 2;
  });
  const priorTerm = logs.reduce((sum, v, p) => sum + 0.5 * ((v - prior.centre[p]!) / prior.sd[p]!) ** 2, 0);

  const variance = base.covariance[1]![1]!;
  const dVariance = shifted.map((s) => (s.covariance[1]![1]! - variance) / DELTA);
  const inverse = invertPositiveDefinite(information)?.inverse;
  if (inverse === undefined) return null;
  const varianceOfVariance = dVariance.reduce(
    (sum, a, p) => sum + a * dVariance.reduce((inner, b, q) => inner + b * inverse[p]![q]!, 0),
    0,
  );
  const dofOfK = varianceOfVariance > 0 ? (2 * variance ** 2) / varianceOfVariance : Infinity;
  return { base, objective: base.objective + priorTerm, gradient, information, dofOfK };
}
