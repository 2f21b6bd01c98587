import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readLog } from "../../../analysis/reading/read-log.ts";
import type { Run } from "../../../analysis/trial.ts";
import { parseUnit } from "../../../analysis/units.ts";
import { CASES, largestDifference, occasions, pairedRuns, resultOf } from "./generated-trial.ts";

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

/** The law: results are the same once the runs are changed. */
function holds(changed: (run: Run) => Run): void {
  fc.assert(
    fc.property(occasions, (occasion) => {
      const runs = pairedRuns(occasion);
      const other = runs.map(changed);
      expect(largestDifference(resultOf(other), resultOf(runs))).toBeLessThan(1e-6);
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
});
