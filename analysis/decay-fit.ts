import { AnalysisError } from "./analysis-error.ts";
import { blockAverages, MOST_BLOCKS, readingsIn, withoutBlocks } from "./block-averages.ts";
import { guessDecay } from "./decay-guess.ts";
import {
  type BackgroundPrior,
  type DecayData,
  type DecayParameters,
  decayColumns,
  dot,
  lineariseDecay,
} from "./decay-model.ts";
import type { DecayNoise } from "./decay-noise.ts";
import {
  type NoisePrior,
  type NoiseSlope,
  noiseFromLogs,
  noisePrior,
  noiseScratch,
  noiseSlope,
  priorPenalty,
} from "./decay-noise-fit.ts";
import type { Estimate } from "./estimate.ts";
import { exp } from "./exp.ts";
import { guessNoise } from "./noise-guess.ts";
import { invertPositiveDefinite } from "./positive-definite.ts";
import type { Readings } from "./readings.ts";

export interface DecayFit {
  readonly kPerH: Estimate;
  /** A: concentration above the background at the window's start. */
  readonly amplitude: number;
  readonly background: { readonly value: number; readonly u: number };
  /** Covariance of k and B [unit/h], and ∂k/∂(mean of the prior on B) [1/(h·unit)]: cov(k, B)/sd² of a linear fit. */
  readonly covarianceOfKAndB: number;
  readonly perPriorMean: number;
  readonly noise: DecayNoise;
  readonly windowH: number;
  /** The blocks that were fitted, outliers left out, t from the window's first reading. */
  readonly blocks: DecayData;
  /** Readings in the window, and how many of them the fit left out. */
  readonly n: number;
  readonly outliers: number;
  /** Passes of the whitening filter it took. */
  readonly passes: number;
}

/** How much trouble a fit takes. */
export interface FitEffort {
  readonly mostBlocks: number;
  /** Settled when the next step of the noise promises less log-likelihood than this… */
  readonly settledGain: number;
  /** …and that of the mean moves k by less than this many u. */
  readonly settledK: number;
}

/** With these k lies within 0.05 u of where it would come to rest (99 of 100 decays), and further passes buy nothing. */
const ENOUGH: FitEffort = { mostBlocks: MOST_BLOCKS, settledGain: 0.05, settledK: 0.05 };
const MOST_ROUNDS = 400;
/** While the mean is this many of its SD away, it moves alone: likelihoods of the noise about a wrong mean do not compare. */
const MEAN_ONLY = 0.3;
/** A step of the noise is refused when it raises the objective by this share of a gain that matters; so damped none is. */
const WORSE_SHARE = 0.4;
const MOST_LAMBDA = 1e4;

/**
 * Fits μ(t) = B + A·e^(−kt) to the readings of one decay, errors relative, with a memory and counting (decay-noise),
 * noise by restricted likelihood, B by its prior. u(k) from (JᵀWJ)⁻¹, dof by Satterthwaite within [min(3, n−3), n−3].
 * @throws AnalysisError "too-short", "not-decaying", "singular", "not-converged"
 */
export function fitDecay(readings: Readings, prior: BackgroundPrior, effort = ENOUGH): DecayFit {
  let data = blockAverages(readings, effort.mostBlocks);
  const n = data.tHours.length;
  if (n < 4) throw new AnalysisError("too-short");
  let outliers = 0;
  let fit = fitBlocks(data, readings, prior, effort, null);
  let passes = fit.passes;
  for (let round = 0; round < 2; round++) {
    const out = outlying(data, fit, prior);
    passes++;
    if (out.size === 0 || outliers + out.size > 0.1 * n || n - outliers - out.size < 5) break;
    outliers += out.size;
    data = withoutBlocks(data, out);
    fit = fitBlocks(data, readings, prior, effort, fit);
    passes += fit.passes;
  }
  const { at, logs, covariance } = fit;
  const noise = noiseFromLogs(logs);
  const u = Math.sqrt(covariance[1]![1]!);
  const most = data.tHours.length - 3;
  const dof = Math.min(most, Math.max(Math.min(3, most), fit.dofOfK));
  const uB = Math.sqrt(covariance[2]![2]!);
  if (![at.kPerH, u, uB, at.lnA].every(Number.isFinite)) throw new AnalysisError("not-converged");
  return {
    kPerH: { value: at.kPerH, u, dof },
    amplitude: exp(at.lnA),
    background: { value: at.background, u: uB },
    covarianceOfKAndB: covariance[1]![2]!,
    perPriorMean: covariance[1]![2]! / prior(at.kPerH).sd ** 2,
    noise,
    windowH: data.tHours.at(-1)!,
    blocks: data,
    n: readings.tS.length,
    outliers: readings.tS.length - readingsIn(data),
    passes,
  };
}

interface FittedBlocks {
  readonly at: DecayParameters;
  readonly logs: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly dofOfK: number;
  readonly passes: number;
}

/** A noise whose slope is known: where the next step is taken from. */
interface Known extends NoiseSlope {
  readonly logs: readonly number[];
  readonly objective: number;
}

/**
 * Mean and noise together: the mean alone while far off, then Fisher scoring of the noise beside it, the base pass of the
 * one being the step of the other. A step of the noise that makes things worse is taken again, shorter.
 */
function fitBlocks(
  data: DecayData,
  readings: Readings,
  background: BackgroundPrior,
  { settledGain, settledK }: FitEffort,
  from: Pick<FittedBlocks, "at" | "logs"> | null,
): FittedBlocks {
  const windowH = data.tHours.at(-1)!;
  const highest = data.values.reduce((a, b) => Math.max(a, b), 0);
  const prior = noisePrior(windowH, countingPrior(readings, highest));
  const scratch = noiseScratch(data.tHours.length);
  let at = from?.at ?? guessDecay(data, background);
  if (at === null) throw new AnalysisError("not-decaying");
  let logs = from?.logs ?? guessNoise(data, decayColumns(data, at), prior);
  let known: Known | null = null;
  let settled: FittedBlocks | null = null;
  let lambda = 0;
  let lastStep = [0, 0, 0, 0];
  let passes = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const columns = decayColumns(data, at);
    const base = lineariseDecay(data, columns, noiseFromLogs(logs), background, scratch.base);
    passes++;
    if (base === null) throw new AnalysisError("singular");
    at = move(at, base.step, windowH);
    if (base.distance >= MEAN_ONLY) continue;
    const objective = base.objective + priorPenalty(logs, prior);
    if (known !== null && objective > known.objective + WORSE_SHARE * settledGain && lambda < MOST_LAMBDA) {
      lambda = Math.max(6 * lambda, 0.3);
      logs = moved(known.logs, noiseMove(known, prior, lambda, lastStep));
      continue;
    }
    const slope = noiseSlope(data, columns, base, logs, prior, background, scratch);
    passes += 4;
    if (slope === null) throw new AnalysisError("singular");
    known = { ...slope, logs, objective };
    settled = { at, logs, covariance: base.covariance, dofOfK: slope.dofOfK, passes };
    const step = noiseMove(known, prior, lambda, lastStep);
    const uK = Math.sqrt(base.covariance[1]![1]!);
    if (Math.abs(dot(slope.gradient, step)) < settledGain && Math.abs(base.step[1]) < settledK * uK) return settled;
    logs = moved(logs, step);
    lastStep = step;
    lambda = lambda < 0.05 ? 0 : lambda / 2;
  }
  // Where only the noise still wavers between values of like probability, the mean has long settled.
  if (settled === null) throw new AnalysisError("not-converged");
  return { ...settled, passes };
}

function moved(logs: readonly number[], step: readonly number[]): number[] {
  return logs.map((v, p) => v + step[p]!);
}

/** Fisher scoring damped by λ, each logarithm by at most 1.5, by 0.6 of it where it turns back; τ stays in its bounds. */
function noiseMove(known: Known, { tauBounds }: NoisePrior, lambda: number, last: readonly number[]): number[] {
  const damped = known.information.map((row, p) => row.map((v, q) => (p === q ? v * (1 + lambda) : v)));
  const inverse = invertPositiveDefinite(damped)?.inverse;
  if (inverse === undefined) throw new AnalysisError("singular");
  return inverse.map((row, p) => {
    const s = Math.max(-1.5, Math.min(1.5, -dot(row, known.gradient)));
    const kept = s * last[p]! < 0 ? 0.6 * s : s;
    return p === 1 ? Math.max(tauBounds[0], Math.min(tauBounds[1], known.logs[1]! + kept)) - known.logs[1]! : kept;
  });
}

/** |Δ ln A| ≤ 1, |Δk| ≤ max(½|k|, ½/T), B ≥ 0. */
function move(at: DecayParameters, [dA, dK, dB]: readonly [number, number, number], windowH: number): DecayParameters {
  const mostK = Math.max(0.5 * Math.abs(at.kPerH), 0.5 / windowH);
  return {
    lnA: at.lnA + Math.max(-1, Math.min(1, dA)),
    kPerH: at.kPerH + Math.max(-mostK, Math.min(mostK, dK)),
    background: Math.max(0, at.background + dB),
  };
}

/**
 * κ = q ± 0.3 for counts, whose step is one count; q ± 2 for numbers, printed with more digits than their counts have; 0.05 q ± 2
 * for mass; where no step is seen, next to nothing.
 */
function countingPrior({ stepQ, quantity }: Readings, highest: number): { centre: number; sd: number } {
  if (stepQ === 0) return { centre: 1e-6 * highest, sd: 2 };
  if (quantity === "mass") return { centre: 0.05 * stepQ, sd: 2 };
  return { centre: stepQ, sd: quantity === "raw" ? 0.3 : 2 };
}

/** Readings off by 4 whitened SD (6 where under 15 counts are expected), local maxima only. */
function outlying(data: DecayData, { at, logs }: FittedBlocks, prior: BackgroundPrior): Set<number> {
  const noise = noiseFromLogs(logs);
  const z = lineariseDecay(data, decayColumns(data, at), noise, prior)?.whitened.columns[0];
  const out = new Set<number>();
  z?.forEach((v, i) => {
    const mu = at.background + exp(at.lnA - at.kPerH * data.tHours[i]!);
    const allowed = mu * data.perBlock < 15 * noise.countingQ ? 6 : 4;
    const size = Math.abs(v);
    if (size > allowed && size >= Math.abs(z[i - 1] ?? 0) && size >= Math.abs(z[i + 1] ?? 0)) out.add(i);
  });
  return out;
}
