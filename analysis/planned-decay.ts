import { decayColumns } from "./decay-model.ts";
import { type DecayNoise, whiten } from "./decay-noise.ts";
import { invertPositiveDefinite } from "./positive-definite.ts";

/** A decay that is still to be logged; concentrations relative to the clean air's level. */
export interface PlannedDecay {
  readonly kPerH: number;
  /** A: aerosol above the floor at the window's start. */
  readonly amplitude: number;
  /** What will be known of B before the fit, as its prior. */
  readonly background: { readonly mean: number; readonly sd: number };
}

/** How it is looked at; κ of the noise and the step q are relative to the clean air's level too. */
export interface PlannedSampling {
  readonly intervalS: number;
  readonly noise: DecayNoise;
  readonly stepQ: number;
}

/** One pass over this many blocks takes about a tenth of a millisecond. */
const MOST_BLOCKS = 4000;

/**
 * Expected u(k) [1/h] of windows of any length up to horizonS, as a function of the length in s: √ of the k element of
 * (JᵀWJ + prior)⁻¹, Fisher's information of μ(t) = B + A·e^(−kt) under noise with a memory (decay-noise). The filter that
 * whitens is causal, so one pass over the horizon holds the information of every shorter window as a partial sum; it
 * only grows, so a longer window is never worse. Infinity where the readings do not determine k.
 */
export function expectedUOfK(
  decay: PlannedDecay,
  { intervalS, noise, stepQ }: PlannedSampling,
  horizonS: number,
): (lengthS: number) => number {
  const perBlock = Math.max(1, Math.ceil(horizonS / intervalS / MOST_BLOCKS));
  const blockS = perBlock * intervalS;
  const n = blocksIn(horizonS);
  const tHours = Float64Array.from({ length: n }, (_, i) => (i * blockS + (blockS - intervalS) / 2) / 3600);
  const { kPerH, amplitude, background } = decay;
  const at = { lnA: Math.log(amplitude), kPerH, background: background.mean };
  const { expected, columns } = decayColumns({ tHours, values: tHours, perBlock, stepQ }, at);
  const j = whiten(noise, { tHours, expected, perBlock, stepQ }, columns.slice(1)).columns;
  const sums = PAIRS.map(([p, q]) => partialSums(j[p]!, j[q]!));

  function blocksIn(lengthS: number): number {
    return Math.floor((Math.floor(lengthS / intervalS + 1e-9) + 1) / perBlock);
  }

  return (lengthS) => {
    const last = Math.min(n, blocksIn(lengthS)) - 1;
    if (last < 0) return Infinity;
    const [aa, ak, ab, kk, kb, bb] = sums.map((sum) => sum[last]!) as [number, number, number, number, number, number];
    const known = bb + 1 / background.sd ** 2;
    const inverse = invertPositiveDefinite([
      [aa, ak, ab],
      [ak, kk, kb],
      [ab, kb, known],
    ])?.inverse;
    return inverse === undefined ? Infinity : Math.sqrt(inverse[1]![1]!);
  };
}

const PAIRS = [
  [0, 0],
  [0, 1],
  [0, 2],
  [1, 1],
  [1, 2],
  [2, 2],
] as const;

function partialSums(a: Float64Array, b: Float64Array): Float64Array {
  let sum = 0;
  return a.map((value, i) => {
    sum += value * b[i]!;
    return sum;
  });
}
