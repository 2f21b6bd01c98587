import type { Scenario } from "../analysis/simulate/scenario.ts";
import { simulateLog } from "../analysis/simulate/simulate-log.ts";
import { DRESSES, toCsv } from "../analysis/simulate/to-csv.ts";

/**
 * The invented log of seed/sample-log.csv, which README.md analyses: 10 min of clean air, salt fed in for 2 min, 20 min of
 * natural decay, then a cleaner of 260 m³/h in a room of 30 m³, seen by an optical counter with two channels.
 */
const SAMPLE: Scenario = {
  seed: 30,
  room: { volumeM3: 30, kNaturalPerH: 0.6 },
  cleaner: { cadrM3PerH: 260 },
  aerosol: {
    startPerCm3: 220,
    backgroundPerCm3: 3,
    densityGPerCm3: 2.2,
    sizes: [
      { fromUm: 0.3, toUm: 1, share: 0.85 },
      { fromUm: 1, toUm: 2.5, share: 0.15 },
    ],
  },
  counter: {
    intervalS: 10,
    channels: [
      { id: ">0.3um (1/cm3)", quantity: "number", unit: "1/cm3", fromUm: 0.3, toUm: null, cumulative: "above" },
      { id: ">1.0um (1/cm3)", quantity: "number", unit: "1/cm3", fromUm: 1, toUm: null, cumulative: "above" },
    ],
    noise: { white: 0.008, ouSd: 0.01, ouTauS: 60 },
    step: 0.01,
    ceiling: null,
    smoothing: null,
    sampleVolumeCm3: 470,
  },
  schedule: { cleanAirS: 600, feedS: 120, naturalS: 1200, totalS: 1500 },
};

/** The text of seed/sample-log.csv. */
export function sampleLogCsv(): string {
  const { series } = simulateLog(SAMPLE);
  return toCsv(series, {
    ...DRESSES.comma,
    time: "time_s",
    title: ["# Invented log, simulated: 30 m3, cleaner on after 32 min"],
  });
}
