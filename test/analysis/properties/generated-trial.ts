import fc from "fast-check";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import type { BandResult } from "../../../analysis/analysis.ts";
import type { Channel, Counter, Role, Run } from "../../../analysis/trial.ts";
import { asCounted, decay, everyS, seededNoise } from "../simulated-decay.ts";
import { channelOf, runOf, trialOf } from "../trial-of.ts";

/** The same cases on every run and machine; few, for each is a whole analysis or several. */
export const CASES = { seed: 20_261_101, numRuns: 12 } as const;

/** What a test was like: rates in 1/h, levels in 1/cm³, times in s. */
export interface Occasion {
  readonly kNatural: number;
  readonly kAdded: number;
  readonly clean: number;
  readonly start: number;
  readonly intervalS: number;
  readonly seed: number;
}

/** Even over the range: fast-check's own doubles are mostly the ends of it, or all but 0. */
export const between = (min: number, max: number) =>
  fc.noBias(fc.integer({ min: 0, max: 1e6 })).map((share) => min + (max - min) * (share / 1e6));

export const occasions: fc.Arbitrary<Occasion> = fc.record({
  kNatural: between(0.15, 1.5),
  kAdded: between(2, 12),
  clean: between(0, 8),
  start: between(300, 2000),
  intervalS: fc.constantFrom(5, 10, 15),
  seed: fc.noBias(fc.nat(1e6)),
});

export const NUMBER: Partial<Channel> = {
  id: "n",
  quantity: "number",
  unit: "1/cm3",
  fromUm: 0.3,
  toUm: 1,
  cumulative: "none",
};

/** One phase as its own run of half an hour; the floor under the cleaner follows from mass balance. */
export function phaseOf(occasion: Occasion, index: number, role: Role, more: Partial<Run> = {}, noisy = true): Run {
  const { kNatural, kAdded, clean, start, intervalS, seed } = occasion;
  const tS = everyS(intervalS, role === "background" ? 600 : 1800);
  const kTotal = kNatural + kAdded;
  const truth =
    role === "background"
      ? () => clean
      : role === "natural"
        ? decay(start, kNatural, clean)
        : decay(start, kTotal, (clean * kNatural) / kTotal);
  const noise = { sigma: 0.01, tauS: 40, white: 0.004, step: 0.01 };
  const values = noisy ? asCounted(tS, truth, noise, seededNoise(seed + 101 * index)) : tS.map(truth);
  return runOf(index, role, tS, [channelOf(values, NUMBER)], more);
}

/** Background, natural and total run of one counter. */
export function pairedRuns(occasion: Occasion, noisy = true): Run[] {
  const roles: Role[] = ["background", "natural", "total"];
  return roles.map((role, i) => phaseOf(occasion, i, role, {}, noisy));
}

export const FEED_S = 600;
export const FED_S = 720;
export const ON_S = 2520;
export const END_S = 4320;

/** Ten minutes of clean air, two of feed, half an hour of natural decay, half an hour with the cleaner on. */
export function markedLog({ kNatural, kAdded, clean, start, intervalS, seed }: Occasion): Run {
  const tS = everyS(intervalS, END_S);
  const kTotal = kNatural + kAdded;
  const floor = (clean * kNatural) / kTotal;
  const natural = (t: number) => clean + start * Math.exp((-kNatural * (t - FED_S)) / 3600);
  const truth = (t: number) => {
    if (t < FEED_S) return clean;
    if (t < FED_S) return clean + (start * (t - FEED_S)) / (FED_S - FEED_S);
    return t < ON_S ? natural(t) : floor + (natural(ON_S) - floor) * Math.exp((-kTotal * (t - ON_S)) / 3600);
  };
  const values = asCounted(tS, truth, { sigma: 0.01, tauS: 40, white: 0.004, step: 0.01 }, seededNoise(seed));
  return runOf(0, "full_log", tS, [channelOf(values, NUMBER)], {
    marks: [
      { event: "aerosol_end", tS: FED_S },
      { event: "cleaner_on", tS: ON_S },
    ],
  });
}

/** The result of a trial's only channel, with a reason to fail where there is none. */
export function resultOf(runs: readonly Run[], counters?: readonly Counter[], volume?: number, u?: number): BandResult {
  const { results, refusals } = analyseTrial(trialOf(runs, counters, volume, u));
  const result = results.find(({ band }) => band.name === "0.1-1.0") ?? results[0];
  if (result === undefined) throw new Error(`no result: ${refusals.map(({ message }) => message).join("; ")}`);
  return result;
}

/** |a/b − 1|. */
export const apart = (a: number, b: number) => Math.abs(a / b - 1);

/** The largest relative difference of CADR, both k and their u between two results. */
export function largestDifference(a: BandResult, b: BandResult): number {
  const figures = ({ cadrM3PerH, total, natural }: BandResult) =>
    [cadrM3PerH, total.kPerH, natural.kPerH].flatMap(({ value, u }) => [value, u]);
  const [one, other] = [figures(a), figures(b)];
  return Math.max(...one.map((figure, i) => apart(figure, other[i]!)));
}
