import type { Channel, Counter, Role, Run, Trial } from "../../../analysis/trial.ts";
import { asCounted, type CounterNoise, decay, everyS, QUIET, seededNoise } from "../simulated-decay.ts";
import { CLEAN, FLOOR, K_NATURAL, K_TOTAL } from "../test-runs.ts";
import { COUNTER, channelOf, runOf, trialOf } from "../trial-of.ts";

/** A counter that leaves nothing open: its smoothing is stated, and short. */
export const STATED: Counter = { ...COUNTER, smoothing: { kind: "moving_mean", timeS: 5 } };

/** What one run of half an hour is made from; all but the truth may be left out. */
export interface Made {
  readonly truth: (tS: number) => number;
  readonly seed?: number;
  readonly stepS?: number;
  readonly lengthS?: number;
  readonly noise?: CounterNoise;
  readonly channel?: Partial<Channel>;
  readonly run?: Partial<Run>;
}

export function made(index: number, role: Role, { truth, ...more }: Made): Run {
  const tS = everyS(more.stepS ?? 10, more.lengthS ?? 1800);
  const values = asCounted(tS, truth, more.noise ?? QUIET, seededNoise(more.seed ?? index + 1));
  return runOf(index, role, tS, [channelOf(values, more.channel)], more.run);
}

export const clean = (more: Partial<Made> = {}) => made(0, "background", { truth: () => CLEAN, lengthS: 600, ...more });
export const off = (more: Partial<Made> = {}) => made(1, "natural", { truth: decay(1000, K_NATURAL, CLEAN), ...more });
export const on = (more: Partial<Made> = {}) => made(2, "total", { truth: decay(1000, K_TOTAL, FLOOR), ...more });

/** A trial of a counter with nothing left open. */
export function told(runs: readonly Run[], counter: Partial<Counter> = {}, more: Partial<Trial> = {}): Trial {
  return { ...trialOf(runs, [{ ...STATED, ...counter }]), ...more };
}

/** The same shape counted instead of weighed: so many particles per cm³ for each of the mass trial's units. */
export function counted(perCm3: number, truth: (tS: number) => number): Partial<Made> {
  const channel = { id: "n", quantity: "number", unit: "1/cm3", fromUm: 0.3, toUm: 1, cumulative: "none" } as const;
  return { truth: (tS) => perCm3 * truth(tS), channel, noise: { ...QUIET, step: 0.1 * perCm3 } };
}

/** [e^(−kt) − kτe^(−t/τ)]/(1 − kτ): what a counter that lags by τ shows of a decay from a settled start. */
export function lagging(amplitude: number, kPerH: number, lagS: number, floor: number): (tS: number) => number {
  const kTau = (kPerH * lagS) / 3600;
  return (tS) => floor + (amplitude * (Math.exp((-kPerH * tS) / 3600) - kTau * Math.exp(-tS / lagS))) / (1 - kTau);
}
