import type { Series } from "../trial.ts";
import { channelWeights } from "./channel-weights.ts";
import { readCounter } from "./read-counter.ts";
import type { Scenario, Schedule } from "./scenario.ts";
import { decayOfBins, type RoomPhysics, wellMixed } from "./well-mixed.ts";

export interface SimulatedLog {
  readonly series: Series;
  readonly truth: Truth;
}

/** What the analysis should find. */
export interface Truth {
  /** End of the feed and the cleaner's switch-on, in s after the first row; null where the log holds none. */
  readonly feedEndS: number | null;
  readonly cleanerOnS: number | null;
  readonly channels: readonly ChannelTruth[];
}

/** Of a channel over several sizes: at the start of the phase. Sizes that differ in k bend the line afterwards. */
export interface ChannelTruth {
  readonly id: string;
  /** −d ln(C − C_bg)/dt with the cleaner off, at the end of the feed. */
  readonly kNaturalPerH: number;
  /** −d ln(C − floor)/dt with the cleaner on, at switch-on. */
  readonly kTotalPerH: number;
  /** Clean air delivery rate weighted by what the channel sees at switch-on. */
  readonly cadrM3PerH: number;
  /** Level of the clean air, and of the floor under the cleaner, in the channel's unit. */
  readonly background: number;
  readonly floor: number;
}

/** A log of a scenario with its truth. `stream` sets runs of one scenario apart: see `simulateRuns`. */
export function simulateLog(scenario: Scenario, physics: RoomPhysics = wellMixed, stream = 0): SimulatedLog {
  const { schedule, counter } = scenario;
  const lengthS = schedule.cleanAirS + schedule.feedS + schedule.naturalS + schedule.totalS;
  const tS = Float64Array.from(
    { length: Math.floor(lengthS / counter.intervalS) + 1 },
    (_, i) => i * counter.intervalS,
  );
  const values = readCounter(scenario, physics(scenario), tS, stream);
  const channels = counter.channels.map((channel, i) => ({ ...channel, ceiling: counter.ceiling, values: values[i]! }));
  return { series: { tS, channels, cropFromS: null, cropToS: null }, truth: truthOf(scenario) };
}

/** Separate runs of one test, each starting at its peak: clean air, cleaner off, cleaner on. */
export function simulateRuns(
  scenario: Omit<Scenario, "schedule">,
  lengthsS: { readonly background: number; readonly natural: number; readonly total: number },
  physics: RoomPhysics = wellMixed,
): Record<"background" | "natural" | "total", SimulatedLog> {
  const nothing: Schedule = { cleanAirS: 0, feedS: 0, naturalS: 0, totalS: 0 };
  const streams = 1 + scenario.counter.channels.length; // as many as `readCounter` draws from
  const run = (schedule: Partial<Schedule>, number: number) =>
    simulateLog({ ...scenario, schedule: { ...nothing, ...schedule } }, physics, number * streams);
  return {
    background: run({ cleanAirS: lengthsS.background }, 1),
    natural: run({ naturalS: lengthsS.natural }, 2),
    total: run({ totalS: lengthsS.total }, 3),
  };
}

function truthOf(scenario: Scenario): Truth {
  const { cleanAirS, feedS, naturalS, totalS } = scenario.schedule;
  const bins = decayOfBins(scenario);
  const channels = scenario.counter.channels.map((channel): ChannelTruth => {
    const weights = channelWeights(channel, scenario.aerosol);
    const seen = (amount: (bin: (typeof bins)[number]) => number) =>
      bins.reduce((sum, bin, i) => sum + weights[i]! * amount(bin), 0);
    const fed = seen((bin) => bin.start);
    const atSwitchOn = (bin: (typeof bins)[number]) =>
      bin.background + bin.start * Math.exp(-bin.kNaturalPerS * naturalS) - bin.floor;
    const left = seen(atSwitchOn);
    return {
      id: channel.id,
      kNaturalPerH: (3600 * seen((bin) => bin.start * bin.kNaturalPerS)) / fed,
      kTotalPerH: (3600 * seen((bin) => atSwitchOn(bin) * bin.kTotalPerS)) / left,
      cadrM3PerH: seen((bin) => atSwitchOn(bin) * bin.cadrM3PerH) / left,
      background: seen((bin) => bin.background),
      floor: seen((bin) => bin.floor),
    };
  });
  const decays = naturalS > 0 || totalS > 0;
  return {
    feedEndS: decays ? cleanAirS + feedS : null,
    cleanerOnS: totalS > 0 ? cleanAirS + feedS + naturalS : null,
    channels,
  };
}
