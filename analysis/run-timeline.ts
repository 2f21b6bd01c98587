import { type BackgroundReading, findCleanAirLead, readBackground } from "./clean-air.ts";
import { findDecayStart } from "./decay-start.ts";
import { laterFeeds } from "./feeds.ts";
import { doubtfulS, findMarkDisputes, type MarkDispute, mixingTimeS, SURE_U } from "./mark-disputes.ts";
import { type Cycle, endOfStatedPart, markedCycles } from "./marked-cycles.ts";
import type { Readings } from "./readings.ts";
import { settlingTimeS } from "./settling-time.ts";
import { findSwitchOn, type SwitchOn } from "./switch-on.ts";
import type { Counter, Run } from "./trial.ts";

/** What happened when in one run, the same for all its channels. Seconds after the run's first row. */
export interface RunTimeline {
  readonly cleanAir: { readonly fromS: number; readonly toS: number } | null;
  readonly cycles: readonly Cycle[];
  readonly disputes: readonly MarkDispute[];
}

/**
 * Timeline of a run from its marks, and where they are missing from its channels, sorted by what they show: the first are asked
 * in turn for a switch-on until one shows it, for a cleaner is switched on once for all channels.
 */
export function findTimeline(run: Run, counter: Counter, channels: readonly Readings[]): RunTimeline {
  const guides = channels.slice(0, 4);
  const guide = guides[0];
  if (guide === undefined || guide.tS.length === 0) return { cleanAir: null, cycles: [], disputes: [] };
  const start = guide.tS[0]!;
  const end = endOfStatedPart(run, guide.tS.at(-1)!);
  if (run.role === "background") return { cleanAir: { fromS: start, toS: end }, cycles: [], disputes: [] };

  const marked = markedCycles(run, start, end, () => (run.role === "total" ? [] : laterFeeds(guide)));
  const cleanAir = leadOf(guide, marked[0]!);
  const cycles = marked.map((cycle): Cycle => {
    if (cycle.switchOn !== null) {
      return { ...cycle, switchOn: { ...cycle.switchOn, ...seenElsewhere(run, counter, guide, cycle, cleanAir) } };
    }
    for (const channel of guides) {
      const found = unmarkedSwitchOn(run, counter, channel, cycle, cleanAir);
      if (found) return { ...cycle, switchOn: { atS: found.atS, uS: found.uS, marked: false, seenS: null } };
    }
    return cycle;
  });
  return { cleanAir, cycles, disputes: findMarkDisputes(run, guide, cycles) };
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
): SwitchOn | null {
  const decay = findDecayStart(channel, cycle.fromS, cycle.toS, cycle.feedEndS);
  if (decay === null) return null;
  // A total log that begins at its peak holds no natural decay: a corner in it is the unit's own doing.
  if (run.role === "total" && !decay.rises) return null;
  const clean = cleanAir && readBackground(channel, cleanAir.fromS, cleanAir.toS);
  const settle = (k: number) => settlingTimeS(counter, channel.quantity, k, channel.intervalS);
  // A natural decay that a slow counter is only beginning to show has not broken off.
  const fromS = run.role === "natural" ? decay.startS + settle(0) : decay.startS;
  return findSwitchOn(channel, fromS, cycle.toS, clean, settle, run.role !== "natural");
}

/**
 * Where the readings show a marked switch-on elsewhere than its mark, and how surely. A decay that quickens as soon as it begins
 * was fed under the running cleaner: there is nothing to see.
 */
function seenElsewhere(
  run: Run,
  counter: Counter,
  guide: Readings,
  cycle: Cycle,
  cleanAir: RunTimeline["cleanAir"],
): { seenS: number; uS: number } | null {
  const found = unmarkedSwitchOn(run, counter, guide, cycle, cleanAir);
  const decay = findDecayStart(guide, cycle.fromS, cycle.toS, cycle.feedEndS);
  if (found === null || decay === null) return null;
  const { atS, uS } = found;
  const apart = Math.abs(atS - cycle.switchOn!.atS) > doubtfulS(guide.intervalS, uS);
  const afterNatural = atS > decay.startS + Math.max(mixingTimeS(guide.intervalS), SURE_U * uS);
  return apart && afterNatural ? { seenS: atS, uS } : null;
}
