import type { DecayNoise } from "../../analysis/decay-noise.ts";
import type { CounterModel, Scenario } from "../../analysis/simulate/scenario.ts";
import { simulateLog, simulateRuns } from "../../analysis/simulate/simulate-log.ts";
import { type RoomPhysics, wellMixed } from "../../analysis/simulate/well-mixed.ts";
import type { Counter, FanState, Run } from "../../analysis/trial.ts";
import { COUNTER, runOf, trialOf } from "../analysis/trial-of.ts";
import type { Dice, Occasion } from "./occasion.ts";

/** What a kind settles before its logs are simulated. */
export interface Setting {
  readonly volumeM3: number;
  readonly kNaturalPerH: number;
  readonly kAddedPerH: number;
  /** In the unit of the judged band. */
  readonly start: number;
  readonly background: number;
  readonly sensors: readonly Sensor[];
  readonly layout: PairedRuns | FullLog;
  readonly physics?: RoomPhysics;
  readonly knownNoise?: boolean;
  /** On unless said otherwise. */
  readonly mixingFan?: FanState;
  /** What the cleaner adds to k in truth, where that is not what was put in. */
  readonly trueKAddedPerH?: number;
}

/** A counter as it is and as the submitter states it. */
export interface Sensor {
  readonly model: CounterModel;
  readonly stated?: Partial<Counter>;
  readonly band: string;
  /** Particles per cm³ for one unit of the judged band. */
  readonly perUnit: number;
  readonly noise: DecayNoise;
}

export interface PairedRuns {
  readonly backgroundS: number;
  readonly naturalS: number;
  readonly totalS: number;
}

export interface FullLog extends PairedRuns {
  readonly feedS: number;
}

/** The volume is measured to this: stated with an error drawn from it. */
const VOLUME_RELATIVE_U = 0.02;

export function simulateTrial(setting: Setting, dice: Dice): Occasion {
  const { volumeM3, sensors } = setting;
  const kAddedPerH = setting.trueKAddedPerH ?? setting.kAddedPerH;
  const statedM3 = volumeM3 * (1 + VOLUME_RELATIVE_U * dice.normal());
  const runs: Run[] = [];
  const decays: Occasion["decays"][number][] = [];
  const counters = sensors.map((sensor, i): Counter => ({ ...COUNTER, id: `c${i + 1}`, ...sensor.stated }));
  sensors.forEach((sensor, i) => {
    for (const { run, windows } of logsOf(setting, sensor, counters[i]!.id, runs.length, dice)) {
      runs.push(run);
      decays.push(...windows.map((window) => ({ run: run.index, ...window })));
    }
  });
  const trial = trialOf(runs, counters, statedM3, VOLUME_RELATIVE_U * statedM3);
  const mixingFan = setting.mixingFan ?? "on";
  return {
    trial: { ...trial, room: { ...trial.room, mixingFan }, runs: runs.map((run) => ({ ...run, mixingFan })) },
    band: sensors[0]!.band,
    cadrM3PerH: volumeM3 * kAddedPerH,
    kAddedPerH,
    noise: setting.knownNoise === false ? null : new Map(counters.map(({ id }, i) => [id, sensors[i]!.noise])),
    decays,
  };
}

/** The same occasion seen by counters that hardly err: what is wrong in its result is the mechanism's doing, not chance. */
export function quiet(setting: Setting): Setting {
  const sensors = setting.sensors.map((sensor) => ({
    ...sensor,
    model: { ...sensor.model, noise: { white: 1e-4, ouSd: 0, ouTauS: 60 }, fractalNoise: undefined },
  }));
  return { ...setting, sensors };
}

interface Log {
  readonly run: Run;
  readonly windows: readonly Omit<Occasion["decays"][number], "run">[];
}

function logsOf(setting: Setting, sensor: Sensor, counter: string, firstIndex: number, dice: Dice): Log[] {
  const { layout, physics = wellMixed } = setting;
  const scenario: Omit<Scenario, "schedule"> = {
    seed: dice.seed(),
    room: { volumeM3: setting.volumeM3, kNaturalPerH: setting.kNaturalPerH },
    cleaner: { cadrM3PerH: setting.volumeM3 * setting.kAddedPerH },
    aerosol: {
      startPerCm3: setting.start * sensor.perUnit,
      backgroundPerCm3: setting.background * sensor.perUnit,
      densityGPerCm3: 1,
      sizes: SIZES,
    },
    counter: sensor.model,
  };
  if ("feedS" in layout) {
    const schedule = { ...layout, cleanAirS: layout.backgroundS };
    const { series, truth } = simulateLog({ ...scenario, schedule }, physics);
    const [feedEndS, onS] = [truth.feedEndS!, truth.cleanerOnS!];
    const run = runOf(firstIndex, "full_log", series.tS, series.channels, { counter });
    const natural = { phase: "natural", fromS: feedEndS, toS: onS } as const;
    return [{ run, windows: [natural, { phase: "total", fromS: onS, toS: series.tS.at(-1)! }] }];
  }
  const logs = simulateRuns(
    scenario,
    { background: layout.backgroundS, natural: layout.naturalS, total: layout.totalS },
    physics,
  );
  const roles = (["background", "natural", "total"] as const).filter((role) => layout[`${role}S`] > 0);
  return roles.map((phase, i) => {
    const { tS, channels } = logs[phase].series;
    const run = runOf(firstIndex + i, phase, tS, channels, { counter });
    return { run, windows: phase === "background" ? [] : [{ phase, fromS: 0, toS: tS.at(-1)! }] };
  });
}

/** One behaviour, so that every band and channel has the same true k; two classes, so that channels can be cumulative. */
const SIZES: Scenario["aerosol"]["sizes"] = [
  { fromUm: 0.3, toUm: 1, share: 5 },
  { fromUm: 1, toUm: 2.5, share: 1 },
];
