import { type Estimate, interval95 } from "../../analysis/estimate.ts";
import { ASSUMED_SPREAD, type Spread } from "../../analysis/expected-elsewhere.ts";
import { learnSpread } from "../../analysis/pooling/learn-spread.ts";
import type { Member } from "../../analysis/pooling/member.ts";
import type { Interval } from "../../analysis/pooling/part-relative.ts";
import { poolCadr } from "../../analysis/pooling/pool-cadr.ts";
import { rankRanges, ranksOf, simultaneousInterval } from "../../analysis/ranks.ts";
import { createRandom } from "../../analysis/simulate/random.ts";
import { otherLaboratoryOff, type SimulatedEntry, simulateRegistry } from "./registry-simulation.ts";

/** How one way of making an interval did: whether it held the truth, its half-width and its error, relative to the truth. */
export interface Held {
  readonly held: boolean;
  readonly half: number;
  readonly error: number;
}

export const WAYS = ["pooled", "assumed", "plain", "naive", "next", "nextPlain"] as const;
export type Way = (typeof WAYS)[number];

export interface EntryVerdict extends Readonly<Record<Way, Held>> {
  readonly laboratories: number;
  readonly rooms: number;
  readonly spread: number;
}

export interface RankVerdict {
  readonly held: boolean;
  readonly meanWidth: number;
}

export const LABORATORIES = 25;

/** Ten configurations each with one, two and three laboratories, ten with four to ten. */
export const FORTY = [1, 2, 3, 0].flatMap((count) => Array.from({ length: 10 }, (_, i) => count || 4 + (i % 7)));
/** The same mixture for a list of thirty. */
export const THIRTY = Array.from({ length: 30 }, (_, i) => FORTY[Math.floor((i * 4) / 3)]!);

export function judgeRegistry(counts: readonly number[], seed: number, repetition: number): EntryVerdict[] {
  const random = createRandom(seed, repetition);
  const registry = simulateRegistry(counts, LABORATORIES, random);
  const spread = spreadOf(registry);
  return registry.map((entry) => judgeEntry(entry, spread, entry.trueM3PerH * (1 + otherLaboratoryOff(random))));
}

export function judgeRanks(counts: readonly number[], seed: number, repetition: number): RankVerdict {
  const registry = simulateRegistry(counts, LABORATORIES, createRandom(seed, repetition));
  const spread = spreadOf(registry);
  const pooled = registry.map(({ members }) => poolCadr(members, spread));
  const ranges = rankRanges(pooled.map((each) => simultaneousInterval(each, pooled.length)));
  const truth = ranksOf(registry.map(({ trueM3PerH }) => trueM3PerH));
  return {
    held: ranges.every(({ best, worst }, i) => best <= truth[i]! && truth[i]! <= worst),
    meanWidth: ranges.reduce((sum, { best, worst }) => sum + worst - best + 1, 0) / ranges.length,
  };
}

function spreadOf(registry: readonly SimulatedEntry[]): Spread {
  return learnSpread(registry.map(({ members }) => ({ invented: false, members })));
}

function judgeEntry({ members, laboratories, trueM3PerH }: SimulatedEntry, spread: Spread, nextM3PerH: number) {
  const pooled = poolCadr(members, spread);
  const naive = naiveMean(members);
  const against = (truth: number, value: number, { low, high }: Interval): Held => ({
    held: low <= truth && truth <= high,
    half: (high - low) / 2 / truth,
    error: value / truth - 1,
  });
  return {
    laboratories,
    rooms: pooled.rooms,
    spread: spread.relative,
    pooled: against(trueM3PerH, pooled.value, pooled),
    assumed: against(trueM3PerH, pooled.value, poolCadr(members, ASSUMED_SPREAD)),
    plain: against(trueM3PerH, pooled.value, interval95(pooled)),
    naive: against(trueM3PerH, naive.value, interval95(naive)),
    next: against(nextM3PerH, pooled.value, pooled.prediction),
    nextPlain: against(nextM3PerH, pooled.value, interval95(pooled.prediction)),
  };
}

/** What is often done: trials are taken as independent, mean ± t·s/√n; one trial's own interval where there is one. */
function naiveMean(members: readonly Member[]): Estimate {
  const values = members.map(({ volumeM3, kDifferencePerH }) => volumeM3.value * kDifferencePerH.value);
  const [{ volumeM3, kDifferencePerH: k }] = members as readonly [Member, ...Member[]];
  if (values.length === 1)
    return { value: values[0]!, u: Math.hypot(volumeM3.value * k.u, k.value * volumeM3.u), dof: k.dof };
  const value = values.reduce((a, b) => a + b, 0) / values.length;
  const scatter = values.reduce((sum, each) => sum + (each - value) ** 2, 0) / (values.length - 1);
  return { value, u: Math.sqrt(scatter / values.length), dof: values.length - 1 };
}
