import type { Random } from "./random.ts";

/**
 * A Poisson count of the given mean. Small means by multiplying uniforms (Knuth, TAOCP 2, 3.4.1), large ones by transformed
 * rejection (Hörmann 1993, algorithm PTRS; constants carried from memory and checked by the test against the distribution).
 */
export function poisson(random: Random, mean: number): number {
  if (!(mean > 0)) return 0;
  return mean < 10 ? byMultiplying(random, mean) : byRejection(random, mean);
}

function byMultiplying(random: Random, mean: number): number {
  const limit = Math.exp(-mean);
  let count = 0;
  for (let product = random.uniform(); product > limit; product *= random.uniform()) count++;
  return count;
}

function byRejection(random: Random, mean: number): number {
  const b = 0.931 + 2.53 * Math.sqrt(mean);
  const a = -0.059 + 0.02483 * b;
  const inverseAlpha = 1.1239 + 1.1328 / (b - 3.4);
  const vR = 0.9277 - 3.6224 / (b - 2);
  for (;;) {
    const u = random.uniform() - 0.5;
    const v = random.uniform();
    const us = 0.5 - Math.abs(u);
    const count = Math.floor(((2 * a) / us + b) * u + mean + 0.43);
    if (us >= 0.07 && v <= vR) return count;
    if (count < 0 || (us < 0.013 && v > us)) continue;
    const left = Math.log((v * inverseAlpha) / (a / (us * us) + b));
    if (left <= count * Math.log(mean) - mean - lnFactorial(count)) return count;
  }
}

/** ln n!, by Stirling's series after shifting n above 10: relative error under 1e-10. */
function lnFactorial(n: number): number {
  let shift = 0;
  let x = n + 1;
  for (; x < 10; x++) shift += Math.log(x);
  const inverse = 1 / x;
  const series = inverse * (1 / 12 - inverse ** 2 * (1 / 360 - inverse ** 2 * (1 / 1260 - inverse ** 2 / 1680)));
  return (x - 0.5) * Math.log(x) - x + 0.5 * Math.log(2 * Math.PI) + series - shift;
}
