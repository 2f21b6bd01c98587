import type { CounterModel } from "../../analysis/simulate/scenario.ts";
import type { Counter } from "../../analysis/trial.ts";
import type { Dice } from "./occasion.ts";
import type { Sensor } from "./simulated-trial.ts";

interface Disturbance {
  readonly sd: number;
  readonly tauS: number;
}

/** Relative errors with a memory of half a minute to two, as real counters show. */
export function drawDisturbance(dice: Dice): Disturbance {
  return { sd: dice.between(0.01, 0.04), tauS: dice.between(30, 120) };
}

const WHITE = 0.003;
/** µg/m³ that one particle per cm³ of the simulated sizes makes up to 2.5 µm, at 1 g/cm³: 5 of 6 near 0.55, 1 of 6 near 1.6 µm. */
const MASS_OF_ONE = ((Math.PI / 6) * (5 * 0.3 ** 1.5 + 2.5 ** 1.5)) / 6;
/** Share of the particles up to 1 µm. */
const SMALL = 5 / 6;

/** A photometer: mass up to 2.5 µm, no counting noise, in steps. */
export function massSensor(
  { sd, tauS }: Disturbance,
  intervalS: number,
  more: { stepQ?: number; model?: Partial<CounterModel>; stated?: Partial<Counter> } = {},
): Sensor {
  const model: CounterModel = {
    intervalS,
    channels: [{ id: "pm2.5", quantity: "mass", unit: "ug/m3", fromUm: null, toUm: 2.5, cumulative: "below" }],
    noise: { white: WHITE, ouSd: sd, ouTauS: tauS },
    step: more.stepQ ?? 0.1,
    ceiling: null,
    smoothing: null,
    sampleVolumeCm3: null,
    ...more.model,
  };
  const noise = { sigma: sd, tauH: tauS / 3600, white: WHITE, countingQ: 1e-9 };
  return { model, stated: more.stated, band: "mass", perUnit: 1 / MASS_OF_ONE, noise };
}

/** A counter that looks at `sampleCm3` a reading: number of 0.3–1 µm, in steps of 0.01 per cm³. */
export function numberSensor({ sd, tauS }: Disturbance, intervalS: number, sampleCm3: number): Sensor {
  const model: CounterModel = {
    intervalS,
    channels: [{ id: "n", quantity: "number", unit: "1/cm3", fromUm: 0.3, toUm: 1, cumulative: "none" }],
    noise: { white: WHITE, ouSd: sd, ouTauS: tauS },
    step: 0.01,
    ceiling: null,
    smoothing: null,
    sampleVolumeCm3: sampleCm3,
  };
  const noise = { sigma: sd, tauH: tauS / 3600, white: WHITE, countingQ: 1 / sampleCm3 };
  return { model, band: "0.1-1.0", perUnit: 1 / SMALL, noise };
}

/** Raw counts a reading of 0.3–1 µm. */
export function rawSensor({ sd, tauS }: Disturbance, intervalS: number): Sensor {
  const model: CounterModel = {
    intervalS,
    channels: [{ id: "n", quantity: "raw", unit: "1", fromUm: 0.3, toUm: 1, cumulative: "none" }],
    noise: { white: WHITE, ouSd: sd, ouTauS: tauS },
    step: 1,
    ceiling: null,
    smoothing: null,
    sampleVolumeCm3: 1,
  };
  return {
    model,
    band: "0.1-1.0",
    perUnit: 1 / SMALL,
    noise: { sigma: sd, tauH: tauS / 3600, white: WHITE, countingQ: 1 },
  };
}

/** Raw counts above 0.3 and 1 µm up to a ceiling of the register; the judged band is their difference. */
export function cumulativeSensor({ sd, tauS }: Disturbance, intervalS: number, ceiling: number): Sensor {
  const model: CounterModel = {
    intervalS,
    channels: [0.3, 1].map((fromUm) => ({
      id: `>${fromUm}um`,
      quantity: "raw",
      unit: "1",
      fromUm,
      toUm: null,
      cumulative: "above",
    })),
    noise: { white: WHITE, ouSd: sd, ouTauS: tauS },
    step: 1,
    ceiling,
    smoothing: null,
    sampleVolumeCm3: 1,
  };
  // Each channel errs on its own: relative to their difference the errors of both count, each by its level.
  const widened = Math.hypot(1, 1 - SMALL) / SMALL;
  const noise = { sigma: sd * widened, tauH: tauS / 3600, white: WHITE * widened, countingQ: 1 };
  return { model, band: "0.1-1.0", perUnit: 1 / SMALL, noise };
}
