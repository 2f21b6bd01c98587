import { createRandom } from "../analysis/simulate/random.ts";
import type { CounterModel, Scenario } from "../analysis/simulate/scenario.ts";
import { type SimulatedLog, simulateLog, simulateRuns } from "../analysis/simulate/simulate-log.ts";
import type { Series } from "../analysis/trial.ts";
import { AEROSOLS } from "./aerosols.ts";
import { findCleaner } from "./cleaners.ts";
import { COUNTERS, type CounterKey } from "./counters.ts";
import { ROOMS } from "./rooms.ts";
import type { TrialPlan } from "./trial-plan.ts";

export interface SimulatedRun {
  readonly role: "background" | "natural" | "total" | "full_log";
  readonly counter: CounterKey;
  /** Seconds after the trial's beginning. */
  readonly startS: number;
  readonly series: Series;
  /** Seconds after the log's first row; null where the log holds no feed, no switch-on. */
  readonly feedEndS: number | null;
  readonly cleanerOnS: number | null;
}

const CLEAN_AIR_S = 300;
const NATURAL_S = 1800;
const FEED_S = 150;
const AIRING_S = 900; // between two runs: the room is aired and filled again

/** The logs of a plan, in the order they were made; several counters stand side by side. */
export function simulatePlan(plan: TrialPlan): SimulatedRun[] {
  return plan.counters.flatMap((counter, i) => simulateOn(plan, counter, plan.seed + 1000 * i));
}

function simulateOn(plan: TrialPlan, counter: CounterKey, seed: number): SimulatedRun[] {
  const scenario = scenarioOf(plan, counter, seed);
  const totalS = totalLengthS(plan);
  if (plan.layout === "log" || plan.layout === "marked_log") {
    const schedule = { cleanAirS: CLEAN_AIR_S, feedS: FEED_S, naturalS: NATURAL_S, totalS };
    return [runOf("full_log", counter, 0, simulateLog({ ...scenario, schedule }))];
  }
  const lengths = { background: CLEAN_AIR_S, natural: NATURAL_S, total: totalS };
  const still = scenarioOf({ ...plan, mixingFan: plan.mixingFanInNatural ?? plan.mixingFan }, counter, seed);
  const { background, total } = simulateRuns(scenario, lengths);
  const first = runOf("background", counter, 0, background);
  const last = runOf("total", counter, CLEAN_AIR_S + NATURAL_S + 2 * AIRING_S, total);
  if (plan.layout !== "paired") return [first, last];
  const { natural } = simulateRuns(still, lengths);
  return [first, runOf("natural", counter, CLEAN_AIR_S + AIRING_S, natural), last];
}

function runOf(
  role: SimulatedRun["role"],
  counter: CounterKey,
  startS: number,
  { series, truth }: SimulatedLog,
): SimulatedRun {
  const { feedEndS, cleanerOnS } = truth;
  return { role, counter, startS, series, feedEndS, cleanerOnS };
}

/**
 * What each band should come out as: the rate weighted by what the counters see of the band when the cleaner is switched
 * on. Bands in which particles of several rates mix have no single truth; theirs is the one at the beginning.
 */
export function trueCadrByBand(plan: TrialPlan): Record<string, number> {
  const scenario = scenarioOf(plan, "optical", plan.seed);
  const naturalS = plan.layout === "log" || plan.layout === "marked_log" ? NATURAL_S : 0;
  const schedule = { cleanAirS: 0, feedS: 0, naturalS, totalS: 60 };
  const counter = { ...scenario.counter, intervalS: 60 + naturalS, channels: BANDS };
  const { truth } = simulateLog({ ...scenario, counter, schedule });
  return Object.fromEntries(truth.channels.map(({ id, cadrM3PerH }) => [id, cadrM3PerH]));
}

const BANDS: CounterModel["channels"] = [
  { id: "0.1-1.0", quantity: "number", unit: "1/cm3", fromUm: 0.1, toUm: 1, cumulative: "none" },
  { id: "0.5-3.0", quantity: "number", unit: "1/cm3", fromUm: 0.5, toUm: 3, cumulative: "none" },
  { id: "5-11", quantity: "number", unit: "1/cm3", fromUm: 5, toUm: 11, cumulative: "none" },
  { id: "mass", quantity: "mass", unit: "ug/m3", fromUm: null, toUm: 2.5, cumulative: "below" },
];

/** Long enough for about three halvings and a look at the floor, a quarter of an hour at least, two hours at most. */
function totalLengthS(plan: TrialPlan): number {
  const kPerH = trueCadr(plan) / ROOMS[plan.room].trueVolumeM3 + naturalLoss(plan);
  return Math.round(Math.min(7200, Math.max(900, (3600 * 2.6) / kPerH)) / 60) * 60;
}

function scenarioOf(plan: TrialPlan, counter: CounterKey, seed: number): Omit<Scenario, "schedule"> {
  const kN = naturalLoss(plan);
  const cadr = trueCadr(plan);
  const { coarseGain } = findCleaner(plan.cleaner);
  return {
    seed,
    room: {
      volumeM3: ROOMS[plan.room].trueVolumeM3,
      // Shape after the bedroom baseline of NIST's wildfire-smoke study: 0.5 /h at 0.5–1 µm, 1.1 at 3 µm, 2.8 at 10 µm
      kNaturalPerH: [
        { sizeUm: 0.71, value: kN },
        { sizeUm: 2, value: kN + 0.5 },
        { sizeUm: 7, value: kN + 2 },
      ],
    },
    cleaner: {
      cadrM3PerH: [
        { sizeUm: 0.71, value: cadr },
        { sizeUm: 2, value: coarseGain * cadr },
      ],
    },
    aerosol: AEROSOLS[plan.aerosol],
    counter: COUNTERS[counter].model,
  };
}

function trueCadr({ cleaner, setting }: TrialPlan): number {
  const found = findCleaner(cleaner).settings.find(({ words }) => words.label === setting);
  if (!found) throw new RangeError(`${cleaner} has no setting ${setting}`);
  return found.trueCadrM3PerH;
}

/** Air moved by a fan brings more to the walls; open windows take more out. */
const FAN_FACTOR = 1.25;
const BY_VENTILATION = { off: 0, natural: 0.8, mechanical: 1.2 };
const DAY_TO_DAY = 0.06;

/** Natural loss of 0.3–1 µm that day in 1/h: the same for all trials of a room on one day. */
function naturalLoss({ room, mixingFan, ventilation, at }: TrialPlan): number {
  const day = Math.floor(Date.parse(at) / 86_400_000);
  const weather = 1 + DAY_TO_DAY * createRandom(day, Object.keys(ROOMS).indexOf(room)).normal();
  return ROOMS[room].kNaturalPerH * weather * (mixingFan === "on" ? FAN_FACTOR : 1) + BY_VENTILATION[ventilation];
}
