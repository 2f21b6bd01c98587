import type { SpeedChange } from "./speed-change.ts";
import type { MarkEvent, Run } from "./trial.ts";

/** One feed of aerosol and what followed it. */
export interface Cycle {
  readonly fromS: number;
  readonly toS: number;
  /** When the feed ended, where marked: before the switch-on, or after it where the feed ran under the cleaner. */
  readonly feedEndS: number | null;
  /** When the cleaner began to work (in a natural run: when something ended the natural decay), where known. */
  readonly switchOn: {
    readonly atS: number;
    readonly uS: number;
    readonly marked: boolean;
    /** Where the readings show it, if that is elsewhere than the mark; u is then theirs. */
    readonly seenS: number | null;
  } | null;
  /** Where the decay under the cleaner breaks, found once the windows are. */
  readonly speedChange: SpeedChange | null;
}

/**
 * The cycles of a run as its marks tell them: one for each cleaner_on, each ended by its cleaner_off or the next aerosol;
 * without a cleaner_on one for each feed, whose switch-on is still to be found.
 */
export function markedCycles(run: Run, startS: number, endS: number, laterFeeds: () => readonly number[]): Cycle[] {
  const switchedOn = timesOf(run, "cleaner_on").filter((t) => t < endS);
  const switchedOff = timesOf(run, "cleaner_off");
  const feedEnds = timesOf(run, "aerosol_end");
  const endAfter = (t: number, limit: number) => Math.min(limit, ...switchedOff.filter((off) => off > t));
  let fromS = startS;
  if (switchedOn.length === 0) {
    return [...laterFeeds().filter((t) => t < endS), endS].map((limit) => {
      const feedEndS = feedEnds.find((t) => t >= fromS && t < limit) ?? null;
      const toS = endAfter(feedEndS ?? fromS, limit);
      const cycle = { fromS, toS, feedEndS, switchOn: null, speedChange: null };
      fromS = limit;
      return cycle;
    });
  }
  return switchedOn.map((atS, i) => {
    const fedAfter = feedEnds.find((t) => t > atS && t < endS) ?? null;
    const next = switchedOn[i + 1] ?? null;
    // Between two switch-ons aerosol is fed for the second; after the last it was fed under the running cleaner.
    const feedEndS = feedEnds.findLast((t) => t >= fromS && t <= atS) ?? (next === null ? fedAfter : null);
    const toS = endAfter(atS, next === null ? endS : Math.min(next, fedAfter ?? Infinity));
    const switchOn = { atS, uS: 0, marked: true, seenS: null };
    const cycle = { fromS, toS, feedEndS, switchOn, speedChange: null };
    fromS = toS;
    return cycle;
  });
}

/** A setting changed ends what is stated about the first one; before the cleaner came on it ends nothing. */
export function endOfStatedPart(run: Run, lastS: number): number {
  const firstOn = timesOf(run, "cleaner_on")[0] ?? -Infinity;
  return timesOf(run, "setting_changed").find((t) => t > firstOn && t < lastS) ?? lastS;
}

export function timesOf(run: Run, event: MarkEvent): number[] {
  return run.marks
    .filter((mark) => mark.event === event)
    .map((mark) => mark.tS)
    .sort((a, b) => a - b);
}
