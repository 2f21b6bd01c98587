import type { BackgroundPrior, DecayData, DecayParameters } from "./decay-model.ts";
import { SAME_STEP } from "./decay-noise.ts";
import { exp } from "./exp.ts";
import { log } from "./log.ts";
import { runningMedian5 } from "./median.ts";

/** Typical relative noise, which sets what a prior on B weighs against the readings in a first guess. */
const TYPICAL_NOISE = 0.03;
const TRIED = [
  -1,
  -0.3,
  -0.1,
  -0.03,
  0.003,
  ...Array.from({ length: 36 }, (_, i) => 0.02 * exp((i / 35) * log(60 / 0.02))),
];

/**
 * Where the fit starts: for each of 41 values of k·T, A and B by weighted linear regression (relative errors, the prior
 * on B as one more reading), the best of them. Null where none has A > 0.
 */
export function guessDecay(data: DecayData, prior: BackgroundPrior): DecayParameters | null {
  const { tHours, values, stepQ } = data;
  const n = tHours.length;
  const windowH = tHours[n - 1]! - tHours[0]!;
  const smooth = runningMedian5(values);
  const highest = smooth.reduce((a, b) => Math.max(a, b), 0);
  const weights = smooth.map((v) => 1 / Math.max(v, stepQ, 1e-3 * highest) ** 2);
  let best: DecayParameters | null = null;
  let least = Infinity;
  for (const kT of TRIED) {
    const kPerH = kT / windowH;
    const { mean, sd } = prior(kPerH);
    const wPrior = (TYPICAL_NOISE / sd) ** 2;
    let see = 0;
    let se = 0;
    let s1 = wPrior;
    let sey = 0;
    let sy = wPrior * mean;
    let syy = wPrior * mean * mean;
    let e = 1;
    let fall = 1;
    let lastStep = Number.NaN;
    for (let i = 0; i < n; i++) {
      if (i > 0) {
        const step = tHours[i]! - tHours[i - 1]!;
        // Even sampling falls by the same factor from block to block, whatever rounding does to the step.
        if (!(Math.abs(step - lastStep) <= SAME_STEP * step)) fall = exp(-kPerH * step);
        lastStep = step;
        e *= fall;
      }
      const w = weights[i]!;
      const y = values[i]!;
      see += w * e * e;
      se += w * e;
      s1 += w;
      sey += w * e * y;
      sy += w * y;
      syy += w * y * y;
    }
    const determinant = see * s1 - se * se;
    let a = (sey * s1 - sy * se) / determinant;
    let b = (sy * see - sey * se) / determinant;
    if (!(b >= 0)) {
      b = 0;
      a = sey / see;
    }
    const rss = syy - 2 * a * sey - 2 * b * sy + a * a * see + 2 * a * b * se + b * b * s1;
    if (a > 0 && rss < least) {
      least = rss;
      best = { lnA: log(a) + kPerH * tHours[0]!, kPerH, background: b };
    }
  }
  return best;
}
