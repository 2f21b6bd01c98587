import type { Channel, Counter, Role, Run, Trial } from "../../analysis/trial.ts";

export const COUNTER: Counter = {
  id: "c1",
  principle: "other",
  model: null,
  sampleFlowCm3PerS: null,
  deadTimeS: null,
  maxConcentrationPerCm3: null,
  smoothing: null,
};

/** A trial in a room of 30 m³ ± 0.3 unless said otherwise. */
export function trialOf(runs: readonly Run[], counters: readonly Counter[] = [COUNTER], volume = 30, u = 0.3): Trial {
  return {
    room: { volumeM3: { value: volume, u, dof: Infinity }, ventilation: "off", mixingFan: "on" },
    counters,
    runs,
  };
}

export function runOf(
  index: number,
  role: Role,
  tS: Float64Array,
  channels: readonly Channel[],
  more: Partial<Run> = {},
): Run {
  return {
    index,
    role,
    counter: "c1",
    series: { tS, channels, cropFromS: null, cropToS: null },
    startMs: null,
    mixingFan: "on",
    ventilation: "off",
    marks: [],
    windows: [],
    ...more,
  };
}

/** A mass channel up to 2.5 µm unless said otherwise. */
export function channelOf(values: Float64Array, more: Partial<Channel> = {}): Channel {
  return {
    id: "pm2.5",
    quantity: "mass",
    unit: "ug/m3",
    fromUm: null,
    toUm: 2.5,
    cumulative: "below",
    ceiling: null,
    values,
    ...more,
  };
}
