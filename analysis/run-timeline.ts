import { type BackgroundReading, findCleanAirLead, readBackground } from "./clean-air.ts";
import { findDecayStart } from "./decay-start.ts";
import type { Readings } from "./readings.ts";
import { settlingTimeS } from "./settling-time.ts";
import { findSwitchOn } from "./switch-on.ts";
import type { Counter, MarkEvent, Run } from "./trial.ts";

/** What happened when in one run, the same for all its channels. Seconds after the run's first row. */
export interface RunTimeline {
  readonly cleanAir: { readonly fromS: number; readonly toS: number } | null;
  readonly cycles: readonly Cycle[];
}

/** One feed of aerosol and what followed it. */
export interface Cycle {
  readonly fromS: number;
  readonly toS: number;
  /** When the feed ended, where marked: before the switch-on, or after it where the feed ran under the cleaner. */
  readonly feedEndS: number | null;
  /** When the cleaner began to work (in a natural run: when something ended the natural decay), where known. */
  readonly switchOn: { readonly atS: number; readonly uS: number; readonly marked: boolean } | null;
}

/**
 * Timeline of a run from its marks, and where they are missing from its channels: those with the most to see are asked
 * in turn for a switch-on until one shows it, for a cleaner is switched on once for all channels.
 */
export function findTimeline(run: Run, counter: Counter, channels: readonly Readings[]): RunTimeline {
  const guides = byVisibleHalvings(channels).slice(0, 4);
  const guide = guides[0];
  if (guide === undefined || guide.tS.length === 0) return { cleanAir: null, cycles: [] };
  const start = guide.tS[0]!;
  const end = endOfStatedPart(run, guide.tS.at(-1)!);
  if (run.role === "background") return { cleanAir: { fromS: start, toS: end }, cycles: [] };

  const cycles = markedCycles(run, start, end);
  const cleanAir = leadOf(guide, cycles[0]!);
  return {
    cleanAir,
    cycles: cycles.map((cycle) => {
      if (cycle.switchOn !== null) return cycle;
      for (const channel of guides) {
        const switchOn = unmarkedSwitchOn(run, counter, channel, cycle, cleanAir);
        if (switchOn) return { ...cycle, switchOn };
      }
      return cycle;
    }),
  };
}

/**
 * Clean air before the feed as one channel reads it. Null where the run has none, and where the cleaner may have run
 * already (a total log without a later switch-on): that is the floor under it, not the clean air of the room.
 */
export function leadReading(run: Run, readings: Readings, timeline: RunTimeline): BackgroundReading | null {
  const { cleanAir, cycles } = timeline;
  const switchOn = cycles[0]?.switchOn ?? null;
  const underCleaner = switchOn === null ? run.role === "total" : cleanAir !== null && switchOn.atS < cleanAir.toS;
  return cleanAir && !underCleaner ? readBackground(readings, cleanAir.fromS, cleanAir.toS) : null;
}

function leadOf(guide: Readings, cycle: Cycle) {
  const decay = findDecayStart(guide, cycle.fromS, cycle.toS, cycle.feedEndS);
  return decay && findCleanAirLead(guide, decay.peak, decay.peakS);
}

function unmarkedSwitchOn(
  run: Run,
  counter: Counter,
  channel: Readings,
  cycle: Cycle,
  cleanAir: RunTimeline["cleanAir"],
): Cycle["switchOn"] {
  const decay = findDecayStart(channel, cycle.fromS, cycle.toS, cycle.feedEndS);
  if (decay === null) return null;
  // A total log that begins at its peak holds no natural decay: a corner in it is the unit's own doing.
  if (run.role === "total" && !decay.rises) return null;
  const clean = cleanAir && readBackground(channel, cleanAir.fromS, cleanAir.toS);
  const settle = (k: number) => settlingTimeS(counter, channel.quantity, k, channel.intervalS);
  // A natural decay that a slow counter is only beginning to show has not broken off.
  const fromS = run.role === "natural" ? decay.startS + settle(0) : decay.startS;
  const found = findSwitchOn(channel, fromS, cycle.toS, clean, settle);
  return found && { atS: found.atS, uS: found.uS, marked: false };
}

/** Channels that show the most halvings first: what a run's phases are told from. */
export function byVisibleHalvings(channels: readonly Readings[]): Readings[] {
  return channels
    .map((channel) => ({ channel, halvings: visibleHalvings(channel) }))
    .sort((a, b) => b.halvings - a.halvings)
    .map(({ channel }) => channel);
}

/** How many halvings a channel can show, less what its ceiling hides. */
function visibleHalvings({ values, clipped, stepQ }: Readings): number {
  const sorted = Float64Array.from(values).sort();
  const high = sorted[Math.floor(0.98 * sorted.length)] ?? 0;
  const low = Math.max(sorted[Math.floor(0.02 * sorted.length)] ?? 0, 4 * stepQ, 1e-3 * high);
  const hidden = clipped.reduce((sum, c) => sum + c, 0) / Math.max(1, clipped.length);
  return high > 0 ? Math.log2(high / low) * (1 - hidden) : 0;
}

/** A setting changed ends what is stated about the first one; before the cleaner came on it ends nothing. */
function endOfStatedPart(run: Run, lastS: number): number {
  const firstOn = timesOf(run, "cleaner_on")[0] ?? -Infinity;
  return timesOf(run, "setting_changed").find((t) => t > firstOn && t < lastS) ?? lastS;
}

/** One cycle for each cleaner_on mark, each ended by its cleaner_off or the next aerosol; without marks one cycle. */
function markedCycles(run: Run, startS: number, endS: number): Cycle[] {
  const switchedOn = timesOf(run, "cleaner_on").filter((t) => t < endS);
  const switchedOff = timesOf(run, "cleaner_off");
  const feedEnds = timesOf(run, "aerosol_end");
  const endAfter = (t: number, limit: number) => Math.min(limit, ...switchedOff.filter((off) => off > t));
  if (switchedOn.length === 0) {
    const feedEndS = feedEnds.find((t) => t >= startS && t < endS) ?? null;
    return [{ fromS: startS, toS: endAfter(feedEndS ?? startS, endS), feedEndS, switchOn: null }];
  }
  let fromS = startS;
  return switchedOn.map((atS, i) => {
    const fedAfter = feedEnds.find((t) => t > atS && t < endS) ?? null;
    const next = switchedOn[i + 1] ?? null;
    // Between two switch-ons aerosol is fed for the second; after the last it was fed under the running cleaner.
    const feedEndS = feedEnds.findLast((t) => t >= fromS && t <= atS) ?? (next === null ? fedAfter : null);
    const toS = endAfter(atS, next === null ? endS : Math.min(next, fedAfter ?? Infinity));
    const cycle = { fromS, toS, feedEndS, switchOn: { atS, uS: 0, marked: true } };
    fromS = toS;
    return cycle;
  });
}

function timesOf(run: Run, event: MarkEvent): number[] {
  return run.marks
    .filter((mark) => mark.event === event)
    .map((mark) => mark.tS)
    .sort((a, b) => a - b);
}
