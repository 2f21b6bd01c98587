import type { Scenario } from "../../../analysis/simulate/scenario.ts";

/** A noiseless test of one size in a room of 30 m³: k_n 0.3 /h, CADR 120 m³/h, so k_total is 4.3 /h. */
export const QUIET: Scenario = {
  seed: 1,
  room: { volumeM3: 30, kNaturalPerH: 0.3 },
  cleaner: { cadrM3PerH: 120 },
  aerosol: {
    startPerCm3: 1000,
    backgroundPerCm3: 20,
    densityGPerCm3: 2.17,
    sizes: [{ fromUm: 0.3, toUm: 1, share: 1 }],
  },
  counter: {
    intervalS: 10,
    channels: [{ id: "n1", quantity: "number", unit: "1/cm3", fromUm: 0.3, toUm: 1, cumulative: "none" }],
    noise: { white: 0, ouSd: 0, ouTauS: 0 },
    step: null,
    ceiling: null,
    smoothing: null,
    sampleVolumeCm3: null,
  },
  schedule: { cleanAirS: 300, feedS: 120, naturalS: 1800, totalS: 3600 },
};

export const NOISY: Scenario = {
  ...QUIET,
  counter: { ...QUIET.counter, noise: { white: 0.01, ouSd: 0.02, ouTauS: 60 }, step: 0.1, sampleVolumeCm3: 2 },
};
