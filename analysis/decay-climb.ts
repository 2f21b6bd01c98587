import type { FittedShape } from "./added-column.ts";
import { runningMedian5 } from "./median.ts";

/** Noise is taken to be no more than this beside counting: a climb would else be called noise and hide behind itself. */
const MOST_SIGMA = 0.05;

export interface Climb {
  /** As a share of the level it climbs from. */
  readonly share: number;
  /** In SD of a reading. */
  readonly sd: number;
}

/** The highest climb within a decay above its lowest level so far, running medians of five throughout. */
export function highestClimb({ data, noise }: FittedShape): Climb {
  const smooth = runningMedian5(data.values);
  const { sigma, white, countingQ } = noise;
  let lowest = Infinity;
  let highest: Climb = { share: 0, sd: 0 };
  for (const level of smooth) {
    lowest = Math.min(lowest, level);
    if (!(lowest > 0)) continue;
    const relative = Math.hypot(
      Math.min(sigma, MOST_SIGMA),
      white,
      Math.sqrt(countingQ / lowest),
      data.stepQ / lowest / Math.sqrt(12),
    );
    const share = level / lowest - 1;
    if (share / relative > highest.sd) highest = { share, sd: share / relative };
  }
  return highest;
}
