import type { Random } from "./random.ts";

/** Noise whose power goes as 1/f between two time constants: long memory that no one time constant describes. */
export interface FractalNoise {
  readonly sd: number;
  readonly fastestS: number;
  readonly slowestS: number;
}

const APART = 3; // neighbouring time constants this far apart leave ripples of a few per cent in the spectrum

/**
 * Relative errors of readings evenly `intervalS` apart, as a sum of Ornstein–Uhlenbeck parts of equal variance whose time
 * constants are spaced geometrically: Σ τ/(1 + (2πfτ)²) over ln τ is 1/(4f) between the ends. SD of the sum is `sd`.
 */
export function fractalNoise(
  { sd, fastestS, slowestS }: FractalNoise,
  intervalS: number,
  random: Random,
): () => number {
  const count = 1 + Math.ceil(Math.log(slowestS / fastestS) / Math.log(APART));
  const each = sd / Math.sqrt(count);
  const parts = Array.from({ length: count }, (_, i) => {
    const tauS = fastestS * (slowestS / fastestS) ** (count > 1 ? i / (count - 1) : 1);
    return { keep: Math.exp(-intervalS / tauS), value: each * random.normal() };
  });
  return () => {
    const sum = parts.reduce((total, { value }) => total + value, 0);
    for (const part of parts) {
      part.value = part.keep * part.value + each * Math.sqrt(1 - part.keep ** 2) * random.normal();
    }
    return sum;
  };
}
