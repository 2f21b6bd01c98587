import { analyseTrial } from "../../analysis/analyse-trial.ts";
import type { Analysis } from "../../analysis/analysis.ts";
import type { Method } from "../../analysis/method.ts";
import type { Trial } from "../../analysis/trial.ts";

/**
 * Another version of the method, which takes every log's clock to run 1 % slow: each rate is 1.01 times as high.
 * In rooms of more than 50 m³ it trusts no reading and refuses.
 */
export const NEXT_METHOD: Method = {
  version: "1.1.0",
  ordinal: 2,
  analyse(trial: Trial): Analysis {
    const runs = trial.runs.map((run) => ({
      ...run,
      series: { ...run.series, tS: run.series.tS.map((t) => t / 1.01) },
    }));
    const analysis = { ...analyseTrial({ ...trial, runs }), methodVersion: "1.1.0" };
    if (trial.room.volumeM3.value <= 50) return analysis;
    const refusal = { band: null, run: null, code: "no-total-decay", message: "the room is too large" } as const;
    return { ...analysis, results: [], naturals: [], refusals: [refusal] };
  },
};

/** An older version, blind to mass: the next one finds a band that this one did not. */
export const BLIND_METHOD: Method = {
  version: "1.0.0",
  ordinal: 1,
  analyse(trial) {
    const analysis = analyseTrial(trial);
    return { ...analysis, results: analysis.results.filter(({ band }) => band.name !== "mass") };
  },
};
