import { createHash } from "node:crypto";
import type { CounterModel, Scenario } from "../../analysis/simulate/scenario.ts";
import { simulateLog, simulateRuns } from "../../analysis/simulate/simulate-log.ts";
import type { Counter, Run, Trial } from "../../analysis/trial.ts";
import { COUNTER, runOf, trialOf } from "./trial-of.ts";

/** Trials whose results are kept for each version of the method: every kind of log and of statement, each by a fixed seed. */
export const GOLDEN_TRIALS: Readonly<Record<string, () => Trial>> = {
  paired: () => paired(1, COUNTS),
  "paired, no background": () => paired(2, COUNTS, { background: 0, natural: 1500, total: 1500 }),
  "natural loss assumed": () => without("natural", paired(3, COUNTS)),
  "full log": () => fullLog(4, COUNTS, []),
  "full log, marked": () => fullLog(5, COUNTS, [420, 1920]),
  "mass alone": () => paired(6, MASS),
  "channels by size, dead time": () => paired(7, BY_SIZE, LENGTHS, { deadTimeS: 1e-5, sampleFlowCm3PerS: 5 }),
  "cumulative channels with a ceiling": () => paired(8, { ...CUMULATIVE, ceiling: 700 }),
  "lag stated": () => smoothed(9, { kind: "lag", timeS: 20 }),
  "moving mean stated": () => smoothed(10, { kind: "moving_mean", timeS: 60 }),
  "two counters": () => joined(paired(11, COUNTS), paired(12, MASS)),
  "few counts": () => paired(13, { ...COUNTS, sampleVolumeCm3: 0.05, step: null }),
  "seeded draws, flow stated": () => ({ ...paired(14, MASS), seed: "golden", statedFlowM3PerH: 400 }),
  "windows fixed": () => windowed(paired(15, COUNTS)),
};

/** SHA-256 of a trial as the analysis takes it: tells a changed log from a changed method. */
export function sha256Of(trial: Trial): string {
  const text = JSON.stringify(trial, (_, value) => (value instanceof Float64Array ? [...value].map(String) : value));
  return createHash("sha256").update(text).digest("hex");
}

/** Every number of a result and every code, by its path: what may not move within a version. */
export function figuresOf(value: unknown, path = ""): [string, number | string][] {
  if (typeof value === "number") return [[path, Number.isFinite(value) ? value : String(value)]];
  if (typeof value === "string") return /(^|\/)(code|severity|source|phase|name)$/.test(path) ? [[path, value]] : [];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => figuresOf(each, `${path}/${key}`));
}

type Lengths = Readonly<Record<"background" | "natural" | "total", number>>;
const LENGTHS: Lengths = { background: 300, natural: 1500, total: 1500 };

const COUNTS: CounterModel = {
  intervalS: 10,
  channels: [{ id: "n1", quantity: "number", unit: "1/cm3", fromUm: 0.3, toUm: 1, cumulative: "none" }],
  noise: { white: 0.01, ouSd: 0.01, ouTauS: 60 },
  step: 0.1,
  ceiling: null,
  smoothing: null,
  sampleVolumeCm3: 50,
};
const MASS: CounterModel = {
  ...COUNTS,
  channels: [{ id: "pm2.5", quantity: "mass", unit: "ug/m3", fromUm: null, toUm: 2.5, cumulative: "below" }],
  sampleVolumeCm3: null,
};
const BY_SIZE: CounterModel = {
  ...COUNTS,
  channels: [
    { id: "a", quantity: "number", unit: "1/cm3", fromUm: 0.3, toUm: 0.5, cumulative: "none" },
    { id: "b", quantity: "number", unit: "1/cm3", fromUm: 0.5, toUm: 1, cumulative: "none" },
    { id: "c", quantity: "number", unit: "1/cm3", fromUm: 1, toUm: 3, cumulative: "none" },
  ],
};
const CUMULATIVE: CounterModel = {
  ...COUNTS,
  channels: [
    { id: "a", quantity: "number", unit: "1/cm3", fromUm: 0.3, toUm: null, cumulative: "above" },
    { id: "b", quantity: "number", unit: "1/cm3", fromUm: 1, toUm: null, cumulative: "above" },
  ],
};

function scenario(seed: number, counter: CounterModel): Omit<Scenario, "schedule"> {
  return {
    seed,
    room: { volumeM3: 30, kNaturalPerH: 0.5 },
    cleaner: { cadrM3PerH: 240 },
    aerosol: {
      startPerCm3: 900,
      backgroundPerCm3: 6,
      densityGPerCm3: 2.2,
      sizes: [
        { fromUm: 0.3, toUm: 0.5, share: 5 },
        { fromUm: 0.5, toUm: 1, share: 2 },
        { fromUm: 1, toUm: 2.5, share: 1 },
      ],
    },
    counter,
  };
}

function paired(seed: number, counter: CounterModel, lengths = LENGTHS, stated: Partial<Counter> = {}): Trial {
  const logs = simulateRuns(scenario(seed, counter), lengths);
  const roles = (["background", "natural", "total"] as const).filter((role) => lengths[role] > 0);
  const runs = roles.map((role, i) => runOf(i, role, logs[role].series.tS, logs[role].series.channels));
  return trialOf(runs, [{ ...COUNTER, ...stated }]);
}

function smoothed(seed: number, smoothing: NonNullable<CounterModel["smoothing"]>): Trial {
  return paired(seed, { ...MASS, smoothing }, LENGTHS, { smoothing });
}

function fullLog(seed: number, counter: CounterModel, [feedEndS, onS]: readonly number[]): Trial {
  const schedule = { cleanAirS: 300, feedS: 120, naturalS: 1500, totalS: 1500 };
  const { series } = simulateLog({ ...scenario(seed, counter), schedule });
  const marks: Run["marks"] =
    feedEndS === undefined || onS === undefined
      ? []
      : [
          { event: "aerosol_end", tS: feedEndS },
          { event: "cleaner_on", tS: onS },
        ];
  return trialOf([runOf(0, "full_log", series.tS, series.channels, { marks })]);
}

function without(role: Run["role"], trial: Trial): Trial {
  const runs = trial.runs.filter((run) => run.role !== role).map((run, index) => ({ ...run, index }));
  return { ...trial, runs };
}

function joined(one: Trial, two: Trial): Trial {
  const runs = two.runs.map((run, i) => ({ ...run, index: one.runs.length + i, counter: "c2" }));
  return { ...one, counters: [...one.counters, { ...COUNTER, id: "c2" }], runs: [...one.runs, ...runs] };
}

function windowed(trial: Trial): Trial {
  const runs = trial.runs.map((run): Run => {
    if (run.role !== "total") return run;
    return { ...run, windows: [{ phase: "total", n: 0, fromS: 60, toS: 900 }] };
  });
  return { ...trial, runs };
}
