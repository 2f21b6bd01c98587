import { xoroshiro128plus } from "pure-rand/generator/XoroShiro";
import { cosOfTurns } from "../cos-of-turns.ts";
import { log } from "../log.ts";

/** A stream of random numbers. */
export interface Random {
  /** Uniform on (0, 1), 53 bits. */
  readonly uniform: () => number;
  /** Normal, mean 0, standard deviation 1. */
  readonly normal: () => number;
}

/** Streams of one seed are 2^64 draws apart, so that runs and channels are independent of each other. */
export function createRandom(seed: number, stream = 0): Random {
  const generator = xoroshiro128plus(seed);
  for (let i = 0; i < stream; i++) generator.unsafeJump!();
  const uniform = () => {
    const high = generator.unsafeNext() >>> 5;
    const low = generator.unsafeNext() >>> 6;
    return (high * 2 ** 26 + low + 0.5) / 2 ** 53;
  };
  // Box and Muller 1958; one of the pair is thrown away, so that a draw depends on nothing before it
  const normal = () => Math.sqrt(-2 * log(uniform())) * cosOfTurns(uniform());
  return { uniform, normal };
}
