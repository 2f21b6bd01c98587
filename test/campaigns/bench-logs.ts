import { readBackground } from "../../analysis/clean-air.ts";
import { prepareRun } from "../../analysis/prepare-run.ts";
import { type Readings, readingsBetween } from "../../analysis/readings.ts";
import type { CounterModel, Scenario } from "../../analysis/simulate/scenario.ts";
import { simulateLog } from "../../analysis/simulate/simulate-log.ts";
import type { Trial } from "../../analysis/trial.ts";
import { COUNTER, runOf, trialOf } from "../analysis/trial-of.ts";

const SIZES_UM = [0.3, 0.5, 1, 2.5, 5, 10];

function scenario(seed: number, counter: Partial<CounterModel>, schedule: Scenario["schedule"]): Scenario {
  return {
    seed,
    room: { volumeM3: 30, kNaturalPerH: 0.4 },
    cleaner: { cadrM3PerH: 150 },
    aerosol: {
      startPerCm3: 3000,
      backgroundPerCm3: 20,
      densityGPerCm3: 1,
      sizes: SIZES_UM.map((fromUm, i) => ({ fromUm, toUm: SIZES_UM[i + 1] ?? 20, share: 4 ** -i })),
    },
    counter: {
      intervalS: 1,
      channels: SIZES_UM.map((fromUm) => ({
        id: `>${fromUm}um`,
        quantity: "number",
        unit: "1/cm3",
        fromUm,
        toUm: null,
        cumulative: "above",
      })),
      noise: { white: 0.005, ouSd: 0.02, ouTauS: 60 },
      step: 0.01,
      ceiling: null,
      smoothing: null,
      sampleVolumeCm3: 47,
      ...counter,
    },
    schedule,
  };
}

/** A full log of so many rows, six cumulative channels: clean air, feed, natural decay, cleaner on, unmarked. */
export function fullLog(rows: number, seed = 1): Trial {
  // An hour and a half whatever the number of rows: the counter is the quicker for it, the test is the same.
  const intervalS = 5400 / (rows - 1);
  const schedule = { cleanAirS: 300, feedS: 120, naturalS: 2580, totalS: 2400 };
  const { series } = simulateLog(
    scenario(seed, { intervalS: intervalS * (1 - 1e-12) /* rounding may not cost the last row */ }, schedule),
  );
  return trialOf([runOf(0, "full_log", series.tS, series.channels)]);
}

/** The readings of one decay under the cleaner, so many of them 3 s apart. */
export function oneDecay(samples: number, seed: number): Readings {
  const schedule = { cleanAirS: 0, feedS: 0, naturalS: 0, totalS: 3 * (samples - 1) };
  const channels: CounterModel["channels"] = [
    { id: "pm2.5", quantity: "mass", unit: "ug/m3", fromUm: null, toUm: 2.5, cumulative: "below" },
  ];
  const { series } = simulateLog(
    scenario(seed, { intervalS: 3, channels, step: 0.1, sampleVolumeCm3: null }, schedule),
  );
  const { columns } = prepareRun(runOf(0, "total", series.tS, series.channels), COUNTER);
  const { readings } = columns.find(({ band }) => band.name === "mass")!;
  return readingsBetween(readings, 0, Number.POSITIVE_INFINITY);
}

/** A reading of clean air to go with it: above the floor that the decay's last minute shows. */
export function cleanAirOf(readings: Readings) {
  const level = readBackground(readings, readings.tS.at(-1)! - 60, readings.tS.at(-1)!)!;
  return { value: 4 * level.value, u: level.u };
}
