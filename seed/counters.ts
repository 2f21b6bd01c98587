import type { CounterModel } from "../analysis/simulate/scenario.ts";

export type CounterKey = "optical" | "photometer" | "bins";

/** An invented counter: what is said of it, and how it reads. */
export interface DemoCounter {
  /** As the API takes it, without the id. */
  readonly words: Readonly<Record<string, unknown>>;
  readonly model: CounterModel;
}

const s = (value: number) => ({ value, unit: "s" });

export const COUNTERS: Readonly<Record<CounterKey, DemoCounter>> = {
  /** Six sizes and over, 2.83 L/min: 472 cm³ in ten seconds. */
  optical: {
    words: {
      principle: "optical_counter",
      model: "six-size counter",
      sample_flow: { value: 2.83, unit: "L/min" },
      max_concentration: { value: 2000, unit: "1/cm3" },
    },
    model: {
      intervalS: 10,
      channels: [0.3, 0.5, 1, 2.5, 5, 10].map((fromUm) => ({
        id: `>${fromUm}um`,
        quantity: "number",
        unit: "1/cm3",
        fromUm,
        toUm: null,
        cumulative: "above",
      })),
      noise: { white: 0.008, ouSd: 0.015, ouTauS: 45 },
      step: 0.001,
      ceiling: null,
      smoothing: null,
      sampleVolumeCm3: 472,
    },
  },
  /** Light scattered by a cloud, shown as mass; no counting noise, whole tenths. */
  photometer: {
    words: {
      principle: "photometer",
      model: "mass photometer",
      smoothing: { kind: "moving_mean", time: s(10) },
    },
    model: {
      intervalS: 10,
      channels: [1, 2.5, 10].map((toUm) => ({
        id: `PM${toUm}`,
        quantity: "mass",
        unit: "ug/m3",
        fromUm: null,
        toUm,
        cumulative: "below",
      })),
      noise: { white: 0.012, ouSd: 0.02, ouTauS: 60 },
      step: 0.1,
      ceiling: null,
      smoothing: { kind: "moving_mean", timeS: 10 },
      sampleVolumeCm3: null,
    },
  },
  /** A cheaper one: three bins, a reading every 15 s from little air. */
  bins: {
    words: { principle: "optical_counter", model: "three-bin counter" },
    model: {
      intervalS: 15,
      channels: [
        [0.3, 0.5],
        [0.5, 1],
        [1, 3],
      ].map(([fromUm, toUm]) => ({
        id: `n${fromUm}-${toUm}`,
        quantity: "number",
        unit: "1/cm3",
        fromUm: fromUm!,
        toUm: toUm!,
        cumulative: "none",
      })),
      noise: { white: 0.015, ouSd: 0.02, ouTauS: 60 },
      step: 0.01,
      ceiling: null,
      smoothing: null,
      sampleVolumeCm3: 40,
    },
  },
};
