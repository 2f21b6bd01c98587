import { channelWeights } from "./channel-weights.ts";
import { loseToDeadTime } from "./dead-time-loss.ts";
import { fractalNoise } from "./fractal-noise.ts";
import { gainAt } from "./gain-drift.ts";
import { poisson } from "./poisson.ts";
import { createRandom, type Random } from "./random.ts";
import type { CounterModel, Scenario } from "./scenario.ts";
import { sensedAir } from "./sensed-air.ts";

/**
 * What the counter shows of the air at the times tS: smoothed, lost to dead time, counted, summed to channels, disturbed,
 * rounded, clipped, in that order. One row of particles is counted once, so that cumulative channels agree with each other.
 * `stream`: runs of one scenario take their noise from different streams.
 */
export function readCounter(
  scenario: Scenario,
  air: (tS: number) => readonly number[],
  tS: Float64Array,
  stream: number,
): Float64Array[] {
  const { counter, aerosol, seed } = scenario;
  const sensed = sensedAir(air, counter.smoothing);
  const counting = createRandom(seed, stream);
  const { deadTime, gainDrift } = counter;
  const seen = (t: number) => (deadTime ? loseToDeadTime(sensed(t), deadTime) : sensed(t));
  const rows = Array.from(tS, (t) => seen(t).map((perCm3) => counted(perCm3, counter, counting)));
  return counter.channels.map((channel, i) => {
    const weights = channelWeights(channel, aerosol);
    const disturb = relativeNoise(counter, createRandom(seed, stream + 1 + i));
    const wander = longMemory(scenario, stream + 1 + i);
    return Float64Array.from(rows, (row, r) => {
      const sum = weights.reduce((total, weight, bin) => total + weight * row[bin]!, 0);
      const gain = gainDrift ? gainAt(gainDrift, tS[r]!) : 1;
      return shown(Math.max(0, sum * gain * (disturb() + wander())), counter);
    });
  });
}

/** From a seed of its own, so that a counter without it draws what it always drew. */
function longMemory({ counter, seed }: Scenario, stream: number): () => number {
  const { fractalNoise: noise, intervalS } = counter;
  return noise ? fractalNoise(noise, intervalS, createRandom(seed ^ 0x5bd1e995, stream)) : () => 0;
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
