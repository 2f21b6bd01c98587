/** Standard normals and uniforms from a 32-bit state (mulberry32 and Box–Muller): the same numbers on every machine. */
export function seededNoise(seed: number): { uniform: () => number; normal: () => number } {
  let state = seed | 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}

export interface CounterNoise {
  /** Relative SD and time constant [s] of the part with memory, relative SD of the white part, the counter's step. */
  readonly sigma: number;
  readonly tauS: number;
  readonly white: number;
  readonly step: number;
}

export const QUIET: CounterNoise = { sigma: 0.01, tauS: 60, white: 0.003, step: 0.1 };

/** What a counter shows of a true concentration: memory, white noise, rounding to its step. */
export function asCounted(
  tS: Float64Array,
  truth: (tS: number) => number,
  noise: CounterNoise,
  { normal }: { normal: () => number },
): Float64Array {
  let memory = noise.sigma * normal();
  return tS.map((t, i) => {
    if (i > 0) {
      const phi = Math.exp(-(t - tS[i - 1]!) / noise.tauS);
      memory = phi * memory + noise.sigma * Math.sqrt(1 - phi * phi) * normal();
    }
    return noise.step * Math.round((truth(t) * (1 + memory + noise.white * normal())) / noise.step);
  });
}

/** B + A·e^(−kt), t in seconds, k in 1/h. */
export function decay(amplitude: number, kPerH: number, background: number): (tS: number) => number {
  return (tS) => background + amplitude * Math.exp((-kPerH * tS) / 3600);
}

/** 0, Δt, 2Δt … up to the length. */
export function everyS(stepS: number, lengthS: number): Float64Array {
  return Float64Array.from({ length: Math.floor(lengthS / stepS) + 1 }, (_, i) => i * stepS);
}
