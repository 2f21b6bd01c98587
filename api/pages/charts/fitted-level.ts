import type { DecayOut } from "../../wire/analysis.ts";

/** C(t) = B + A·e^(−k(t − t₀)) of a fitted decay, in the readings' unit; t [s] after the run's first row, t₀ its window's start, k in 1/h. */
export function fittedLevel({ amplitude, background, k, window }: DecayOut, tS: number): number {
  return background.value + amplitude * Math.exp((-k.value * (tS - window.from)) / 3600);
}
