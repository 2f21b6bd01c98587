import { AnalysisError } from "./analysis-error.ts";
import { guessDecay } from "./decay-guess.ts";
import { compareHalves, type Halves } from "./decay-halves.ts";
import {
  type BackgroundPrior,
  type DecayData,
  type DecayParameters,
  decayColumns,
  dot,
  lineariseDecay,
} from "./decay-model.ts";
import type { DecayNoise } from "./decay-noise.ts";
import { noiseFromLogs, noisePrior, noiseStep } from "./decay-noise-fit.ts";
import type { Estimate } from "./estimate.ts";
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
  readonly halves: Halves | null;
  /** Readings in the window, and how many of them the fit left out. */
  readonly n: number;
  readonly outliers: number;
}

/** Long logs are averaged to at most this many blocks: one pass of 400 takes about 10 µs. */
const MOST_BLOCKS = 400;
const MOST_ROUNDS = 80;

/**
 * Fits μ(t) = B + A·e^(−kt) to the readings of one decay, errors relative, with a memory and counting (decay-noise),
 * noise by restricted likelihood, B by its prior. u(k) from (JᵀWJ)⁻¹, dof by Satterthwaite within [min(3, n−3), n−3].
 * @throws AnalysisError "too-short", "not-decaying", "singular", "not-converged"
 */
export function fitDecay(readings: Readings, prior: BackgroundPrior): DecayFit {
  let data = blocks(readings);
  const n = data.tHours.length;
  if (n < 4) throw new AnalysisError("too-short");
  let outliers = 0;
  let fit = fitBlocks(data, readings, prior);
  for (let round = 0; round < 2; round++) {
    const out = outlying(data, fit, prior);
    if (out.size === 0 || outliers + out.size > 0.1 * n || n - outliers - out.size < 5) break;
    outliers += out.size;
    const keep = (_: number, i: number) => !out.has(i);
    data = { ...data, tHours: data.tHours.filter(keep), values: data.values.filter(keep) };
    fit = fitBlocks(data, readings, prior);
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
    amplitude: Math.exp(at.lnA),
    background: { value: at.background, u: uB },
    covarianceOfKAndB: covariance[1]![2]!,
    perPriorMean: covariance[1]![2]! / prior(at.kPerH).sd ** 2,
    noise,
    windowH: data.tHours.at(-1)!,
    halves: compareHalves(data, at, noise, uB),
    n: readings.tS.length,
    outliers: outliers * data.perBlock,
  };
}

interface FittedBlocks {
  readonly at: DecayParameters;
  readonly logs: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly dofOfK: number;
}

/** Mean and noise in turn: the mean alone until its step is under 0.3 u, then Fisher scoring of the noise beside it. */
function fitBlocks(data: DecayData, readings: Readings, background: BackgroundPrior): FittedBlocks {
  const windowH = data.tHours.at(-1)!;
  const highest = data.values.reduce((a, b) => Math.max(a, b), 0);
  const guess = guessDecay(data, background);
  if (guess === null) throw new AnalysisError("not-decaying");
  let at = guess;
  const prior = noisePrior(windowH, countingPrior(readings, highest));
  let logs = startingNoise(data, at, prior.centre, prior.tauBounds);
  let lambda = 0;
  let lastStep = [0, 0, 0, 0];
  let accepted = { logs, objective: Infinity };
  let settled: FittedBlocks | null = null;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const mean = lineariseDecay(data, decayColumns(data, at), noiseFromLogs(logs), background);
    if (mean === null) throw new AnalysisError("singular");
    const dK = mean.step[1];
    const u = Math.sqrt(mean.covariance[1]![1]!);
    at = move(at, mean.step, windowH);
    if (Math.abs(dK) >= 0.3 * u) continue;
    const noise = noiseStep(data, decayColumns(data, at), logs, prior, background);
    if (noise === null) throw new AnalysisError("singular");
    if (noise.objective > accepted.objective + 0.02 && lambda < 1e4) {
      lambda = Math.max(6 * lambda, 0.3);
      logs = accepted.logs;
      accepted = { logs, objective: Infinity };
      continue;
    }
    accepted = { logs, objective: noise.objective };
    settled = { at, logs, covariance: noise.base.covariance, dofOfK: noise.dofOfK };
    const damped = noise.information.map((row, p) => row.map((v, q) => (p === q ? v * (1 + lambda) : v)));
    const inverse = invertPositiveDefinite(damped)?.inverse;
    if (inverse === undefined) throw new AnalysisError("singular");
    const step = inverse.map((row, p) => {
      const s = Math.max(-1.5, Math.min(1.5, -dot(row, noise.gradient)));
      return s * lastStep[p]! < 0 ? 0.6 * s : s;
    });
    const next = logs.map((v, p) => v + step[p]!);
    next[1] = Math.min(prior.tauBounds[1], Math.max(prior.tauBounds[0], next[1]!));
    const moved = next.map((v, p) => v - logs[p]!);
    const gain = Math.abs(dot(noise.gradient, moved));
    if (gain < 0.1 && Math.abs(dK) < 0.05 * u) {
      return settled;
    }
    logs = next;
    lastStep = step;
    lambda = lambda < 0.05 ? 0 : lambda / 2;
  }
  // Where only the noise still wavers between values of like probability, the mean has long settled.
  if (settled === null) throw new AnalysisError("not-converged");
  return settled;
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

/** κ = q ± 0.3 for counts, whose step is one count; 0.05 q ± 2 for mass; where no step is seen, next to nothing. */
function countingPrior({ stepQ, quantity }: Readings, highest: number): { centre: number; sd: number } {
  if (stepQ === 0) return { centre: 1e-6 * highest, sd: 2 };
  if (quantity === "mass") return { centre: 0.05 * stepQ, sd: 2 };
  return { centre: stepQ, sd: quantity === "raw" ? 0.3 : 1 };
}

/** Noise to start from: σ from the scatter about the guess, w from that of neighbours, τ and κ at their priors. */
function startingNoise(
  data: DecayData,
  at: DecayParameters,
  centre: readonly number[],
  tauBounds: readonly [number, number],
): number[] {
  const r = data.values.map((y, i) => {
    const mu = at.background + Math.exp(at.lnA - at.kPerH * data.tHours[i]!);
    return Math.max(-1, Math.min(1, (y - mu) / mu));
  });
  const scatter = Math.sqrt(dot(r, r) / r.length);
  const steps = r.slice(1).map((v, i) => v - r[i]!);
  const rough = Math.sqrt((dot(steps, steps) / Math.max(1, steps.length) / 2) * data.perBlock);
  const near = (value: number, p: number, reach: number) =>
    Math.max(centre[p]! - reach, Math.min(centre[p]! + reach, Math.log(Math.max(value, 1e-12))));
  const tau = Math.min(tauBounds[1], Math.max(tauBounds[0], centre[1]!));
  return [near(scatter, 0, 3), tau, near(0.5 * rough, 2, 3), centre[3]!];
}

/** Readings off by 4 whitened SD (6 where under 15 counts are expected), local maxima only. */
function outlying(data: DecayData, { at, logs }: FittedBlocks, prior: BackgroundPrior): Set<number> {
  const noise = noiseFromLogs(logs);
  const z = lineariseDecay(data, decayColumns(data, at), noise, prior)?.whitened.columns[0];
  const out = new Set<number>();
  z?.forEach((v, i) => {
    const mu = at.background + Math.exp(at.lnA - at.kPerH * data.tHours[i]!);
    const allowed = mu * data.perBlock < 15 * noise.countingQ ? 6 : 4;
    const size = Math.abs(v);
    if (size > allowed && size >= Math.abs(z[i - 1] ?? 0) && size >= Math.abs(z[i + 1] ?? 0)) out.add(i);
  });
  return out;
}

function blocks({ tS, values, stepQ }: Readings): DecayData {
  const n = tS.length;
  const perBlock = Math.max(1, Math.ceil(n / MOST_BLOCKS));
  const whole = Math.floor(n / perBlock);
  const average = (v: Float64Array) =>
    Float64Array.from({ length: whole }, (_, b) => mean(v.subarray(b * perBlock, (b + 1) * perBlock)));
  const tHours = average(tS.map((t) => (t - tS[0]!) / 3600));
  return { tHours, values: average(values), perBlock, stepQ };
}

function mean(values: Float64Array): number {
  return values.reduce((a, b) => a + b, 0) / values.length;
}
