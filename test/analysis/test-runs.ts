import type { Analysis } from "../../analysis/analysis.ts";
import type { Role, Run } from "../../analysis/trial.ts";
import { asCounted, decay, everyS, QUIET, seededNoise } from "./simulated-decay.ts";
import { channelOf, runOf } from "./trial-of.ts";

export const K_NATURAL = 0.4;
export const K_TOTAL = 5.4;
export const CLEAN = 5;

/** One phase as its own run: k, floor, seed. */
export function phaseRun(
  index: number,
  role: Role,
  kPerH: number,
  floor: number,
  seed: number,
  more: Partial<Run> = {},
): Run {
  const tS = everyS(10, role === "background" ? 600 : 1800);
  const truth = role === "background" ? () => CLEAN : decay(1000, kPerH, floor);
  return runOf(index, role, tS, [channelOf(asCounted(tS, truth, QUIET, seededNoise(seed)))], more);
}

export const FLOOR = (CLEAN * K_NATURAL) / K_TOTAL;
export const background = (more: Partial<Run> = {}) => phaseRun(0, "background", 0, CLEAN, 1, more);
export const natural = (more: Partial<Run> = {}) => phaseRun(1, "natural", K_NATURAL, CLEAN, 2, more);
export const total = (more: Partial<Run> = {}) => phaseRun(2, "total", K_TOTAL, FLOOR, 3, more);

/** 3 min of clean air, 2 min of feed, 20 min of natural decay, 25 min with the cleaner on. */
export const ON_S = 1500;
export function fullLog(kOn: number, seed = 4, more: Partial<Run> = {}): Run {
  const tS = everyS(5, 3000);
  const naturalDecay = decay(1000, K_NATURAL, CLEAN);
  const level = naturalDecay(ON_S - 300) - FLOOR;
  const truth = (t: number) => {
    if (t < 180) return CLEAN;
    if (t < 300) return CLEAN + (1000 * (t - 180)) / 120;
    return t < ON_S ? naturalDecay(t - 300) : decay(level, kOn, FLOOR)(t - ON_S);
  };
  return runOf(0, "full_log", tS, [channelOf(asCounted(tS, truth, QUIET, seededNoise(seed)))], more);
}

export const massOf = (analysis: Analysis) => analysis.results.find(({ band }) => band.name === "mass")!;
export const codes = (analysis: Analysis) => massOf(analysis).findings.map(({ code }) => code);
