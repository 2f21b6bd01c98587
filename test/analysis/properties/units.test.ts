import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readLog } from "../../../analysis/reading/read-log.ts";
import type { Run } from "../../../analysis/trial.ts";
import { parseUnit } from "../../../analysis/units.ts";
import { CASES, largestDifference, type Occasion, occasions, pairedRuns, resultOf } from "./generated-trial.ts";

/** A run written as a log in other units, read back, and analysed in place of the run. */
function throughLog(run: Run, timeUnit: "s" | "min" | "h" | "datetime", unit: string): Run {
  const perUnit = { s: 1, min: 60, h: 3600 };
  const { tS, channels } = run.series;
  const [channel] = channels;
  const time = (t: number) =>
    timeUnit === "datetime" ? new Date(Date.UTC(2026, 9, 3, 23, 50) + 1000 * t).toISOString() : t / perUnit[timeUnit];
  const rows = Array.from(tS, (t, i) => `${time(t)},${parseUnit(unit).fromBase(channel!.values[i]!)}`);
  const { series } = readLog(["t,n", ...rows].join("\n"), {
    t: { column: "t", unit: timeUnit },
    channels: [{ column: "n", id: "n", quantity: "number", unit, fromUm: 0.3, toUm: 1 }],
  });
  return { ...run, series };
}

/** The same run with a channel of another kind, times a factor. */
function times(run: Run, factor: number, quantity: "raw" | "mass"): Run {
  const channels = run.series.channels.map((c) => ({ ...c, quantity, values: c.values.map((v) => v * factor) }));
  return { ...run, series: { ...run.series, channels } };
}

/** The law: results are the same, whichever of two ways the runs are changed. */
function holds(changed: (run: Run, occasion: Occasion) => Run, as: (run: Run) => Run = (run) => run): void {
  fc.assert(
    fc.property(occasions, (occasion) => {
      const runs = pairedRuns(occasion);
      const other = runs.map((run) => changed(run, occasion));
      expect(largestDifference(resultOf(other), resultOf(runs.map(as)))).toBeLessThan(1e-6);
    }),
    CASES,
  );
}

describe("a result does not depend on the unit", () => {
  test.each(["s", "min", "h", "datetime"] as const)("of time: a log in %s", (unit) => {
    holds((run) => throughLog(run, unit, "1/cm3"));
  });

  test.each(["1/m3", "1/L", "1/[cft_i]"])("of concentration: a log in %s", (unit) => {
    holds((run) => throughLog(run, "s", unit));
  });

  // A number concentration may not be multiplied: how many particles stick together depends on it.
  test.each(["raw", "mass"] as const)("nor on a bare factor on a channel of %s", (quantity) => {
    const factor = (seed: number) => 10 ** ((seed % 1201) / 100 - 6);
    holds(
      (run, { seed }) => times(run, factor(seed), quantity),
      (run) => times(run, 1, quantity),
    );
  });
});
