import { expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { interval95 } from "../../analysis/estimate.ts";
import type { Role } from "../../analysis/trial.ts";
import { asCounted, decay, everyS, seededNoise } from "./simulated-decay.ts";
import { channelOf, runOf, trialOf } from "./trial-of.ts";

const TRIALS = 200;

/**
 * One simulated occasion with a known truth: a background run, a natural and a total decay, counter noise with a memory of
 * half a minute to two, the room's volume known to 2 % and wrong by as much.
 */
function occasion(seed: number) {
  const random = seededNoise(seed);
  const between = (low: number, high: number) => low * (high / low) ** random.uniform();
  const kNatural = between(0.15, 1.2);
  const kAdded = between(2, 8);
  const clean = between(1, 20);
  const stepS = [10, 20, 60][Math.floor(3 * random.uniform())]!;
  const noise = { sigma: between(0.01, 0.04), tauS: between(30, 120), white: 0.003, step: 0.1 };
  const run = (index: number, role: Role, lengthS: number, truth: (t: number) => number) => {
    const tS = everyS(stepS, lengthS);
    return runOf(index, role, tS, [channelOf(asCounted(tS, truth, noise, random))]);
  };
  const floor = (clean * kNatural) / (kNatural + kAdded);
  const volume = between(20, 60);
  const stated = volume * (1 + 0.02 * random.normal());
  const runs = [
    run(0, "background", 900, () => clean),
    run(1, "natural", between(1800, 3600), decay(1000, kNatural, clean)),
    run(2, "total", between(1200, 2400), decay(1000, kNatural + kAdded, floor)),
  ];
  return { trial: trialOf(runs, undefined, stated, 0.02 * stated), truth: volume * kAdded };
}

test(`95 % intervals of ${TRIALS} simulated trials hold the truth 91–99.5 % of the time (three sigma about 95 % and over)`, () => {
  let inside = 0;
  for (let seed = 1; seed <= TRIALS; seed++) {
    const { trial, truth } = occasion(seed);
    const { cadrM3PerH } = analyseTrial(trial).results[0]!;
    const { low, high } = interval95(cadrM3PerH);
    if (low <= truth && truth <= high) inside++;
  }
  expect(inside / TRIALS).toBeGreaterThan(0.91);
  expect(inside / TRIALS).toBeLessThan(0.995);
});
