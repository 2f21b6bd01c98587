import type { DecayNoise } from "../../analysis/decay-noise.ts";
import { createRandom, type Random } from "../../analysis/simulate/random.ts";
import type { Phase, Trial } from "../../analysis/trial.ts";

/** One simulated trial with all that is true of it. */
export interface Occasion {
  readonly trial: Trial;
  /** Name of the band that is judged. */
  readonly band: string;
  /** The cleaner's own clean air delivery rate, and what it adds to k in the true volume. */
  readonly cadrM3PerH: number;
  readonly kAddedPerH: number;
  /** True noise of the judged band on each counter; null where no noise of the method's kind describes it. */
  readonly noise: ReadonlyMap<string, DecayNoise> | null;
  /** When the decays truly lasted: what a fit would use that need not find them. */
  readonly decays: readonly {
    readonly run: number;
    readonly phase: Phase;
    readonly fromS: number;
    readonly toS: number;
  }[];
}

/** A kind of trial: drawn anew each time within its bounds. */
export interface Kind {
  readonly name: string;
  /** Whether the estimator's own model holds in it. */
  readonly modelled: boolean;
  /** False where the truth it is judged by is not what an interval claims: shown for what it tells, held to no limit. */
  readonly limited: boolean;
  /** Findings that would tell a reader of what the model misses. */
  readonly rightFindings: readonly string[];
  readonly draw: (dice: Dice) => Occasion;
  /** The same occasion with counters that hardly err. */
  readonly drawQuiet: (dice: Dice) => Occasion;
}

/** Chance for one occasion: its own stream of draws, and seeds for its logs. */
export interface Dice extends Random {
  readonly between: (low: number, high: number) => number;
  readonly oneOf: <T>(choices: readonly T[]) => T;
  readonly sign: () => 1 | -1;
  readonly seed: () => number;
}

/** Dice of trial number `number` of a kind in a campaign: they depend on nothing else, so that kinds can be run alone. */
export function createDice(campaignSeed: number, kind: string, number: number): Dice {
  let hash = campaignSeed | 0;
  for (const letter of `${kind} ${number}`) hash = Math.imul(hash ^ letter.charCodeAt(0), 0x01000193) ^ (hash >>> 15);
  const random = createRandom(hash);
  return {
    ...random,
    between: (low, high) => low * (high / low) ** random.uniform(),
    oneOf: (choices) => choices[Math.floor(choices.length * random.uniform())]!,
    sign: () => (random.uniform() < 0.5 ? -1 : 1),
    seed: () => Math.floor(2 ** 32 * random.uniform()) | 0,
  };
}
