import { channelWeights } from "./channel-weights.ts";
import { poisson } from "./poisson.ts";
import { createRandom, type Random } from "./random.ts";
import type { CounterModel, Scenario } from "./scenario.ts";

/**
 * What the counter shows of the air at the times tS: smoothed, counted, summed to channels, disturbed, rounded, clipped, in
 * that order. One row of particles is counted once, so that cumulative channels agree with each other.
 * `stream`: runs of one scenario take their noise from different streams.
 */
export function readCounter(
  scenario: Scenario,
  air: (tS: number) => readonly number[],
  tS: Float64Array,
  stream: number,
): Float64Array[] {
  const { counter, aerosol, seed } = scenario;
  const sensed = smoothed(air, counter);
  const counting = createRandom(seed, stream);
  const rows = Array.from(tS, (t) => sensed(t).map((perCm3) => counted(perCm3, counter, counting)));
  return counter.channels.map((channel, i) => {
    const weights = channelWeights(channel, aerosol);
    const disturb = relativeNoise(counter, createRandom(seed, stream + 1 + i));
    return Float64Array.from(rows, (row) => {
      const sum = weights.reduce((total, weight, bin) => total + weight * row[bin]!, 0);
      return shown(Math.max(0, sum * disturb()), counter);
    });
  });
}

function counted(perCm3: number, { sampleVolumeCm3 }: CounterModel, random: Random): number {
  return sampleVolumeCm3 === null ? perCm3 : poisson(random, perCm3 * sampleVolumeCm3) / sampleVolumeCm3;
}

/** 1 + OU + white: x' = x·e^(−Δ/τ) + σ√(1 − e^(−2Δ/τ))·N, exact for any interval. */
function relativeNoise({ noise, intervalS }: CounterModel, random: Random): () => number {
  const keep = noise.ouTauS > 0 ? Math.exp(-intervalS / noise.ouTauS) : 0;
  const fresh = noise.ouSd * Math.sqrt(1 - keep * keep);
  let memory = noise.ouSd * random.normal();
  return () => {
    const factor = 1 + memory + noise.white * random.normal();
    memory = keep * memory + fresh * random.normal();
    return factor;
  };
}

function shown(value: number, { step, ceiling }: CounterModel): number {
  const rounded = step === null ? value : Number((Math.round(value / step) * step).toPrecision(12)); // 0.1 steps print as such
  return ceiling === null ? rounded : Math.min(rounded, ceiling);
}

const PIECES = 40; // slices of a smoothing's memory: the integral is good to about 1e-4 of the value

/**
 * The air as the counter senses it: a moving mean over the last T, or a lag, ∫ e^(−s/τ)/τ · C(t − s) ds, taken at the middles
 * of slices of equal weight. Before the log began the air was as at its beginning.
 */
function smoothed(
  air: (tS: number) => readonly number[],
  { smoothing }: CounterModel,
): (tS: number) => readonly number[] {
  if (smoothing === null) return air;
  const delaysS = Array.from({ length: PIECES }, (_, i) => {
    const share = (i + 0.5) / PIECES;
    return smoothing.timeS * (smoothing.kind === "lag" ? -Math.log(1 - share) : share);
  });
  return (tS) => {
    const moments = delaysS.map((delayS) => air(Math.max(0, tS - delayS)));
    return moments[0]!.map((_, bin) => moments.reduce((sum, moment) => sum + moment[bin]!, 0) / PIECES);
  };
}
