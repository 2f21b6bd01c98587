import { findDecayStart } from "./decay-start.ts";
import { timesOf } from "./marked-cycles.ts";
import { median } from "./median.ts";
import { firstAtOrAfter, type Readings } from "./readings.ts";
import type { Cycle } from "./run-timeline.ts";
import type { MarkEvent, Run } from "./trial.ts";

/** A mark that the readings, or the length of the log, speak against: what they say lies byS after it (before, if negative). */
export interface MarkDispute {
  readonly event: MarkEvent;
  readonly byS: number;
  /** It lies after the last reading, and is not used. */
  readonly outside: boolean;
}

/** Nobody marks by the second, and air takes its time to mix. */
const LEAST_S = 60;
const LEAST_INTERVALS = 3;
/** A switch-on seen in the readings lies within 2u of the true one in nine of ten simulated logs, within 4u in all of them. */
const SURE_U = 4;

/** Below this share of the peak a feed is not over; above it noise decides when the peak comes. */
const RISEN = 0.85;

/** Least time between a mark and what the readings say that is a contradiction [s]. */
export function tolerableS(intervalS: number, uS = 0): number {
  return Math.max(LEAST_S, LEAST_INTERVALS * intervalS, SURE_U * uS);
}

/**
 * Marks of a run that are contradicted: a cleaner_on minutes from where the decay quickens, an aerosol_end after which the
 * concentration goes on rising, and either after the last reading.
 */
export function findMarkDisputes(run: Run, guide: Readings, cycles: readonly Cycle[]): MarkDispute[] {
  const lastS = guide.tS.at(-1)!;
  const tolerated = tolerableS(guide.intervalS);
  const outside = (["cleaner_on", "aerosol_end"] as const).flatMap((event) =>
    timesOf(run, event)
      .filter((atS) => atS > lastS + tolerated)
      .map((atS): MarkDispute => ({ event, byS: lastS - atS, outside: true })),
  );
  const inside = cycles.flatMap(({ fromS, toS, feedEndS, switchOn }): MarkDispute[] => {
    const found: MarkDispute[] = [];
    if (switchOn?.marked && switchOn.seenS !== null) {
      found.push({ event: "cleaner_on", byS: switchOn.seenS - switchOn.atS, outside: false });
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
