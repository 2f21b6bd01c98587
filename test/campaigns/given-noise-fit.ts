import { AnalysisError } from "../../analysis/analysis-error.ts";
import { guessDecay } from "../../analysis/decay-guess.ts";
import {
  type BackgroundPrior,
  type DecayData,
  type DecayParameters,
  decayColumns,
  dot,
  lineariseDecay,
} from "../../analysis/decay-model.ts";
import type { DecayNoise } from "../../analysis/decay-noise.ts";
import type { Estimate } from "../../analysis/estimate.ts";
import type { Readings } from "../../analysis/readings.ts";

/** k of a decay whose noise is known [1/h]: the engine's own equations, solved at that noise; nothing is estimated but the mean. */
export function fitGivenNoise(readings: Readings, prior: BackgroundPrior, noise: DecayNoise): Estimate {
  const data = dataOf(readings);
  return { ...solveMean(data, prior, noise, guess(data, prior)), dof: Infinity };
}

/**
 * k where the noise is taken to have no memory: its white part scaled until rᵀWr = n − 3. What an ordinary weighted fit would
 * say.
 */
export function fitWithoutMemory(readings: Readings, prior: BackgroundPrior, countingQ: number): Estimate {
  const data = dataOf(readings);
  const n = data.tHours.length;
  let at = guess(data, prior);
  let white = 0.02;
  let solved = null;
  for (let round = 0; round < 12; round++) {
    solved = solveMean(data, prior, { sigma: 1e-9, tauH: 1 / 60, white, countingQ }, at);
    at = solved.at;
    white = Math.max(1e-4, white * Math.sqrt(solved.chiSquared / (n - 3)));
  }
  return { value: solved!.value, u: solved!.u, dof: n - 3 };
}

function dataOf({ tS, values, stepQ }: Readings): DecayData {
  return { tHours: tS.map((t) => (t - tS[0]!) / 3600), values, perBlock: 1, stepQ };
}

function guess(data: DecayData, prior: BackgroundPrior): DecayParameters {
  const found = guessDecay(data, prior);
  if (found === null) throw new AnalysisError("not-decaying");
  return found;
}

function solveMean(data: DecayData, prior: BackgroundPrior, noise: DecayNoise, from: DecayParameters) {
  let at = from;
  const windowH = data.tHours.at(-1)!;
  for (let round = 0; round < 100; round++) {
    const solved = lineariseDecay(data, decayColumns(data, at), noise, prior);
    if (solved === null) throw new AnalysisError("singular");
    const [dA, dK, dB] = solved.step;
    const most = Math.max(0.5 * Math.abs(at.kPerH), 0.5 / windowH);
    const u = Math.sqrt(solved.covariance[1]![1]!);
    at = {
      lnA: at.lnA + Math.max(-1, Math.min(1, dA)),
      kPerH: at.kPerH + Math.max(-most, Math.min(most, dK)),
      background: Math.max(0, at.background + dB),
    };
    if (Math.abs(dK) < 1e-3 * u) {
      const r = solved.whitened.columns[0]!;
      return { value: at.kPerH, u, at, chiSquared: dot(r, r) };
    }
  }
  throw new AnalysisError("not-converged");
}
