import type { Role, Run } from "../../../analysis/trial.ts";
import { asCounted, type CounterNoise, everyS, QUIET, seededNoise } from "../simulated-decay.ts";
import { CLEAN, K_NATURAL, K_TOTAL } from "../test-runs.ts";
import { channelOf, runOf } from "../trial-of.ts";

/** A stretch of a log: how long, what the aerosol source would add in an hour, which share of its rate the cleaner works at. */
export interface Stage {
  readonly lengthS: number;
  readonly feedPerH?: number;
  readonly cleaner?: number;
}

/** Two minutes that bring the air up by 1000. */
export const FEED: Stage = { lengthS: 120, feedPerH: 30_000 };
export const off = (minutes: number): Stage => ({ lengthS: 60 * minutes });
export const on = (minutes: number, share = 1): Stage => ({ lengthS: 60 * minutes, cleaner: share });

/** dC/dt = S − k_n (C − C_bg) − x·k_a·C, solved stage by stage: one exponential each. */
export function stagedLevel(stages: readonly Stage[], startLevel = CLEAN): (tS: number) => number {
  const pieces: { fromS: number; level: number; kPerH: number; towards: number }[] = [];
  let fromS = 0;
  let level = startLevel;
  for (const { lengthS, feedPerH = 0, cleaner = 0 } of stages) {
    const kPerH = K_NATURAL + cleaner * (K_TOTAL - K_NATURAL);
    const towards = (feedPerH + K_NATURAL * CLEAN) / kPerH;
    pieces.push({ fromS, level, kPerH, towards });
    level = towards + (level - towards) * Math.exp((-kPerH * lengthS) / 3600);
    fromS += lengthS;
  }
  return (tS) => {
    const piece = pieces.findLast((p) => tS >= p.fromS)!;
    return piece.towards + (piece.level - piece.towards) * Math.exp((-piece.kPerH * (tS - piece.fromS)) / 3600);
  };
}

/** A log of stages, read every ten seconds unless said otherwise. */
export function stagedRun(
  index: number,
  role: Role,
  stages: readonly Stage[],
  seed: number,
  more: Partial<Run> & { readonly startLevel?: number; readonly stepS?: number; readonly noise?: CounterNoise } = {},
): Run {
  const { startLevel = CLEAN, stepS = 10, noise = QUIET, ...rest } = more;
  const lengthS = stages.reduce((sum, stage) => sum + stage.lengthS, 0);
  const tS = everyS(stepS, lengthS);
  const values = asCounted(tS, stagedLevel(stages, startLevel), noise, seededNoise(seed));
  return runOf(index, role, tS, [channelOf(values)], rest);
}
