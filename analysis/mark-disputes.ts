import { findDecayStart } from "./decay-start.ts";
import { type Cycle, timesOf } from "./marked-cycles.ts";
import { median } from "./median.ts";
import { firstAtOrAfter, type Readings } from "./readings.ts";
import type { MarkEvent, Run } from "./trial.ts";

/** A mark that the readings, or the length of the log, speak against: what they say lies byS after it (before, if negative). */
export interface MarkDispute {
  readonly event: MarkEvent;
  readonly byS: number;
  /** It lies after the last reading, and is not used. */
  readonly outside: boolean;
}

/** Nobody marks by the second, and after a feed air takes its time to mix. */
const LEAST_S = 15;
const MIXING_S = 60;
const LEAST_INTERVALS = 3;
/** A switch-on seen in the readings lies within 2u of the true one in nine of ten simulated logs, within 4u in all of them. */
const LIKELY_U = 2;
export const SURE_U = 4;

/** Below this share of the peak a feed is not over; above it noise decides when the peak comes. */
const RISEN = 0.85;

/** Time between a cleaner_on and the switch-on seen above which neither decay is given what lies between [s]. */
export function doubtfulS(intervalS: number, uS: number): number {
  return Math.max(intervalS, LIKELY_U * uS);
}

/** Time after a feed, or after the last reading, that contradicts no mark [s]. */
export function mixingTimeS(intervalS: number): number {
  return Math.max(MIXING_S, LEAST_INTERVALS * intervalS);
}

/**
 * Marks of a run that are contradicted: a cleaner_on a few readings and 2u from where the decay quickens, an aerosol_end after
 * which the concentration goes on rising for a minute, and either after the last reading.
 */
export function findMarkDisputes(run: Run, guide: Readings, cycles: readonly Cycle[]): MarkDispute[] {
  const lastS = guide.tS.at(-1)!;
  const tolerated = mixingTimeS(guide.intervalS);
  const outside = (["cleaner_on", "aerosol_end"] as const).flatMap((event) =>
    timesOf(run, event)
      .filter((atS) => atS > lastS + tolerated)
      .map((atS): MarkDispute => ({ event, byS: lastS - atS, outside: true })),
  );
  const inside = cycles.flatMap(({ fromS, toS, feedEndS, switchOn }): MarkDispute[] => {
    const found: MarkDispute[] = [];
    if (switchOn?.marked && switchOn.seenS !== null) {
      const byS = switchOn.seenS - switchOn.atS;
      const toleratedS = Math.max(LEAST_S, LEAST_INTERVALS * guide.intervalS) + LIKELY_U * switchOn.uS;
      if (Math.abs(byS) > toleratedS) found.push({ event: "cleaner_on", byS, outside: false });
    }
    const peak = feedEndS === null ? null : findDecayStart(guide, fromS, toS, feedEndS);
    if (
      peak?.rises &&
      peak.peakS > feedEndS! + tolerated &&
      levelAt(guide, feedEndS! + tolerated) < RISEN * peak.peak
    ) {
      found.push({ event: "aerosol_end", byS: peak.peakS - feedEndS!, outside: false });
    }
    return found;
  });
  return [...outside, ...inside];
}

function levelAt({ tS, values }: Readings, atS: number): number {
  const i = firstAtOrAfter(tS, atS);
  return median(values.subarray(Math.max(0, i - 2), i + 3));
}
