import { type Scenario, valueAt } from "../../analysis/simulate/scenario.ts";
import { type SimulatedLog, simulateLog, simulateRuns } from "../../analysis/simulate/simulate-log.ts";
import type { Series } from "../../analysis/trial.ts";

/** The same without a flow that a maker states, for cleaners stronger than that of the sample. */
export function withoutFlow<T extends { parts: readonly { stated_flow?: unknown }[] }>(configuration: T): T {
  return { ...configuration, parts: configuration.parts.map(({ stated_flow: _, ...part }) => part) };
}

/** A simulated test in 30 m³: a cleaner of 240 m³/h, so that CADR/V is 8 an hour. */
export function sampleScenario(seed: number): Scenario {
  return {
    seed,
    room: { volumeM3: 30, kNaturalPerH: 0.5 },
    cleaner: { cadrM3PerH: 240 },
    aerosol: {
      startPerCm3: 900,
      backgroundPerCm3: 6,
      densityGPerCm3: 2.2,
      sizes: [{ fromUm: 0.3, toUm: 1, share: 1 }],
    },
    counter: {
      intervalS: 10,
      channels: [{ id: "n1", quantity: "number", unit: "1/cm3", fromUm: 0.3, toUm: 1, cumulative: "none" }],
      noise: { white: 0.01, ouSd: 0.01, ouTauS: 60 },
      step: 0.1,
      ceiling: null,
      smoothing: null,
      sampleVolumeCm3: 50,
    },
    schedule: { cleanAirS: 300, feedS: 120, naturalS: 1500, totalS: 1500 },
  };
}

/** What the pooled CADR of these trials should hold. */
export const SAMPLE_CADR = valueAt(sampleScenario(1).cleaner.cadrM3PerH, 0.55);

/** A series as a client sends it. */
export function sentSeries({ tS, channels }: Series) {
  return {
    t: { unit: "s", values: [...tS] },
    channels: channels.map(({ id, quantity, unit, fromUm, toUm, cumulative, values }) => {
      const sent = Array.from(values, (value) => (Number.isNaN(value) ? null : value));
      return { id, quantity, unit, from_um: fromUm, to_um: toUm, cumulative, values: sent };
    }),
  };
}

export function sampleLog(seed: number): SimulatedLog {
  return simulateLog(sampleScenario(seed));
}

export const SAMPLE_CONFIGURATION = {
  title: "Harbour box, one panel",
  kind: "user_built",
  arrangement: "one panel on the suction side",
  parts: [
    { part: "fan", count: 1, description: "axial fan, 200 mm", stated_flow: { value: 400, unit: "m3/h" } },
    {
      part: "filter",
      count: 1,
      description: "pleated panel",
      size: "500 x 500 x 50 mm",
      filter_grade: { system: "MERV", grade: "13" },
    },
  ],
  settings: [{ label: "Low" }, { label: "High", stated_power: { value: 38, unit: "W" } }],
  costs: [{ item: "whole", money: { value: 62, currency: "EUR", date: "2026-09-01" } }],
};

/** A whole trial as a client sends it: three runs, so paired. Trials of different seeds have different content. */
export function sampleTrial(seed: number, changes: Readonly<Record<string, unknown>> = {}) {
  const { schedule: _, ...scenario } = sampleScenario(seed);
  const runs = simulateRuns(scenario, { background: 300, natural: 1500, total: 1500 });
  return {
    configuration: SAMPLE_CONFIGURATION,
    setting: "high",
    performed_at: "2026-10-03T18:20:00+02:00",
    room: { label: "Back room", volume: { value: 30, unit: "m3", u: 0.6 }, ventilation: "off", mixing_fan: "on" },
    aerosol: { kind: "salt" },
    counters: [{ id: "c1", principle: "optical_counter", model: "invented counter", position: "on the bench" }],
    interest: "independent",
    note: "an invented trial of the tests",
    runs: (["background", "natural", "total"] as const).map((role) => ({
      role,
      series: sentSeries(runs[role].series),
    })),
    ...changes,
  };
}

/** A JSON request. */
export function json(body: unknown, headers: Record<string, string> = {}): RequestInit {
  return { method: "POST", headers: { "Content-Type": "application/json", ...headers }, body: JSON.stringify(body) };
}

export const bearer = (key: string) => ({ Authorization: `Bearer ${key}` });
