import type { FindingCode } from "../../../analysis/analysis.ts";
import type { Trial } from "../../../analysis/trial.ts";
import { decay, QUIET } from "../simulated-decay.ts";
import { CLEAN, FLOOR, fullLog, K_NATURAL, K_TOTAL, ON_S } from "../test-runs.ts";
import { trialOf } from "../trial-of.ts";
import { clean, counted, lagging, off, on, STATED, told } from "./made-trials.ts";

/** A trial that raises a finding and a twin, other in the one thing, that does not. */
export interface FindingCase {
  readonly raises: () => Trial;
  readonly twin: () => Trial;
  /** It stands in the budget. */
  readonly widens?: boolean;
  /** Where the trial has not the mass band. */
  readonly band?: string;
}

const sound = () => told([clean(), off(), on()]);
const natural = decay(1000, K_NATURAL, CLEAN);
const total = decay(1000, K_TOTAL, FLOOR);
const leaky = decay(1000, 2, CLEAN);
/** Nearly six halvings in twelve minutes, a reading every two seconds. */
const quick = { truth: decay(1000, 20, 1), stepS: 2, lengthS: 720 };
const hoursLater = (hours: number) => ({ startMs: hours * 3.6e6 });

/** One entry a finding: a new one is added here, and the test asks for it. */
export const FINDING_CASES: Readonly<Record<FindingCode, FindingCase>> = {
  "no-effect": {
    raises: () => told([clean(), off({ truth: decay(1000, 2.2, CLEAN) }), on({ truth: decay(1000, 1.8, CLEAN) })]),
    twin: () => told([clean(), off({ truth: decay(1000, 1.2, CLEAN) }), on({ truth: decay(1000, 1.8, CLEAN) })]),
  },
  "assumed-natural-loss": { raises: () => told([clean(), on()]), twin: sound },
  "natural-other-day": {
    raises: () => told([clean(), off({ run: hoursLater(0) }), on({ run: hoursLater(30) })]),
    twin: () => told([clean(), off({ run: hoursLater(0) }), on({ run: hoursLater(3) })]),
    widens: true,
  },
  "conditions-differ": {
    raises: () => told([clean(), off({ run: { ventilation: "mechanical" } }), on()]),
    twin: sound,
    widens: true,
  },
  "background-inconsistent": {
    raises: () => told([clean({ truth: () => 400 }), off({ truth: decay(1000, K_NATURAL, 0) }), on({ lengthS: 3600 })]),
    twin: () => told([clean({ truth: () => 20 }), off({ truth: decay(1000, K_NATURAL, 0) }), on({ lengthS: 3600 })]),
  },
  "few-halvings": { raises: () => told([clean(), off(), on({ lengthS: 700 })]), twin: sound },
  "short-log": { raises: () => told([clean(), off(), on({ stepS: 170 })]), twin: sound },
  "long-memory": {
    raises: () => told([clean(), off(), on({ noise: { ...QUIET, sigma: 0.03, tauS: 400 }, seed: 8 })]),
    twin: () => told([clean(), off(), on({ noise: { ...QUIET, sigma: 0.03, tauS: 30 }, seed: 8 })]),
  },
  "uneven-decay": {
    raises: () => told([clean(), off(), on({ truth: (t) => total(t * (1.3 - (0.3 * t) / 1800)) })]),
    twin: sound,
    widens: true,
  },
  "speed-change": {
    raises: () => told([clean(), off(), on({ truth: (t) => total(Math.min(t, 900) + 0.4 * Math.max(0, t - 900)) })]),
    twin: sound,
  },
  "marks-contradicted": {
    raises: () => told([fullLog(K_TOTAL, 4, { marks: [{ event: "cleaner_on", tS: ON_S - 400 }] })]),
    twin: () => told([fullLog(K_TOTAL, 4, { marks: [{ event: "cleaner_on", tS: ON_S }] })]),
  },
  "strong-unit": {
    raises: () => told([clean(), off(), on({ truth: decay(1000, 36, 1), stepS: 2, lengthS: 400 })]),
    twin: () => told([clean(), off(), on({ truth: decay(1000, 24, 1), stepS: 2, lengthS: 400 })]),
  },
  "at-ceiling": {
    raises: () =>
      told([clean(), off(), on({ truth: (t) => Math.min(700, total(t)), noise: { ...QUIET, sigma: 0, white: 0 } })]),
    twin: () => told([clean(), off(), on({ noise: { ...QUIET, sigma: 0, white: 0 } })]),
  },
  "volume-estimated": {
    raises: () => trialOf([clean(), off(), on()], [STATED], 30, 1.5),
    twin: () => trialOf([clean(), off(), on()], [STATED], 30, 1.4),
  },
  "volume-unlikely": {
    raises: () => trialOf([clean(), off(), on()], [STATED], 1.4, 0.01),
    twin: () => trialOf([clean(), off(), on()], [STATED], 1.6, 0.01),
  },
  "window-fixed-by-hand": {
    raises: () => told([clean(), off(), on({ run: { windows: [{ phase: "total", n: 0, fromS: 60, toS: 1200 }] } })]),
    twin: sound,
  },
  "counters-spread": {
    raises: () => twoCounters(1.3),
    twin: () => twoCounters(1),
  },
  coagulation: {
    raises: () => told([off(counted(100, natural)), on(counted(100, total))]),
    twin: () => told([off(counted(1, natural)), on(counted(1, total))]),
    widens: true,
    band: "0.1-1.0",
  },
  "interval-checked": {
    raises: () => ({ ...trialOf([clean(), on({ truth: decay(1000, 1.6, 1) })], [STATED], 30, 9), seed: "abc" }),
    twin: () => ({ ...trialOf([clean(), on({ truth: decay(1000, 1.6, 1) })], [STATED], 30, 0.3), seed: "abc" }),
    widens: true,
  },
  "lack-of-fit": {
    raises: () =>
      told([clean(), off(), on({ ...quick, truth: (t) => quick.truth(t) * (1 + 0.05 * Math.sin(t / 29)) })]),
    twin: () => told([clean(), off(), on(quick)]),
    widens: true,
  },
  "non-monotone": {
    raises: () =>
      told([clean(), off({ truth: (t) => leaky(t) * (1 + 0.5 * Math.exp(-(((t - 1200) / 120) ** 2))) }), on()]),
    twin: () => told([clean(), off({ truth: leaky }), on()]),
  },
  "still-being-fed": {
    raises: () => told([clean(), off({ truth: decay(600, -0.09, CLEAN) }), on()]),
    twin: () => told([clean(), off({ truth: decay(600, 0.09, CLEAN) }), on()]),
    widens: true,
  },
  "repeats-differ": {
    raises: () => repeated(0.9),
    twin: () => repeated(K_NATURAL),
  },
  "mixing-not-forced": {
    raises: () => told([clean(), off({ run: { mixingFan: "off" } }), on({ run: { mixingFan: "off" } })]),
    twin: sound,
  },
  "undeclared-lag": {
    raises: () => told([clean(), off(), on({ truth: lagging(1000, 8, 80, 1) })], { smoothing: null }),
    twin: () => told([clean(), off(), on({ truth: decay(1000, 8, 1) })], { smoothing: null }),
    widens: true,
  },
  "smoothing-unstated": {
    raises: () => told([clean(), off(), on({ stepS: 60, noise: { ...QUIET, sigma: 0.03 } })], { smoothing: null }),
    twin: () => told([clean(), off(), on({ stepS: 60, noise: { ...QUIET, sigma: 0.03 } })]),
    widens: true,
  },
  "smoothing-long": {
    raises: () => told([clean(), off(), on({ truth: decay(1000, 8, 1) })], { smoothing: { kind: "lag", timeS: 250 } }),
    twin: () => told([clean(), off(), on({ truth: decay(1000, 8, 1) })], { smoothing: { kind: "lag", timeS: 25 } }),
    widens: true,
  },
  "undeclared-dead-time": {
    raises: () => crowded(2000),
    twin: () => crowded(20_000),
    widens: true,
    band: "0.1-1.0",
  },
  "cadr-above-flow": {
    raises: () => ({ ...sound(), statedFlowM3PerH: 120 }),
    twin: () => ({ ...sound(), statedFlowM3PerH: 180 }),
  },
};

/** A second counter beside the first, whose total decay is quicker by a factor. */
function twoCounters(factor: number): Trial {
  const other = { counter: "c2" };
  const second = [
    clean({ run: { ...other, index: 3 }, seed: 21 }),
    off({ run: { ...other, index: 4 }, seed: 22 }),
    on({ run: { ...other, index: 5 }, seed: 23, truth: (t) => total(factor * t) }),
  ];
  return trialOf([clean(), off(), on(), ...second], [STATED, { ...STATED, id: "c2" }]);
}

/** A natural decay before and another, of this k, after. */
function repeated(kPerH: number): Trial {
  const after = off({ truth: decay(1000, kPerH, CLEAN), run: { index: 3 }, seed: 9 });
  return told([clean(), off(), on(), after]);
}

/** 1000 particles per cm³ before a counter made for so many. */
function crowded(maxConcentrationPerCm3: number): Trial {
  return told([off(counted(1, natural)), on(counted(1, total))], { maxConcentrationPerCm3 });
}
