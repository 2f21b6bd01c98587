import fc from "fast-check";
import { expect, test } from "vitest";
import type { Run } from "../../../analysis/trial.ts";
import {
  apart,
  between,
  CASES,
  largestDifference,
  markedLog,
  occasions,
  pairedRuns,
  resultOf,
} from "./generated-trial.ts";

test("CADR and its u grow with the volume, k does not", () => {
  fc.assert(
    fc.property(occasions, between(0.05, 50), (occasion, factor) => {
      const runs = pairedRuns(occasion);
      const [small, large] = [resultOf(runs, undefined, 30, 0.6), resultOf(runs, undefined, 30 * factor, 0.6 * factor)];
      expect(apart(large.cadrM3PerH.value, factor * small.cadrM3PerH.value)).toBeLessThan(1e-12);
      expect(apart(large.cadrM3PerH.u, factor * small.cadrM3PerH.u)).toBeLessThan(1e-12);
      expect(large.kDifferencePerH).toEqual(small.kDifferencePerH);
      expect(large.total.kPerH).toEqual(small.total.kPerH);
    }),
    CASES,
  );
});

/** Everything a run says of time, later by as much. */
function later(run: Run, shiftS: number): Run {
  const { series } = run;
  const back = (s: number | null) => (s === null ? null : s + shiftS);
  return {
    ...run,
    startMs: run.startMs === null ? null : run.startMs + 1000 * shiftS,
    series: {
      ...series,
      tS: series.tS.map((t) => t + shiftS),
      cropFromS: back(series.cropFromS),
      cropToS: back(series.cropToS),
    },
    marks: run.marks.map((mark) => ({ ...mark, tS: mark.tS + shiftS })),
    windows: run.windows.map((window) => ({ ...window, fromS: window.fromS + shiftS, toS: window.toS + shiftS })),
  };
}

test("nothing depends on where the clock starts: the windows move along", () => {
  fc.assert(
    fc.property(occasions, fc.noBias(fc.integer({ min: -90_000, max: 90_000 })), (occasion, shiftS) => {
      const runs = pairedRuns(occasion).map((run): Run => {
        const window = { phase: "total" as const, n: 0, fromS: 60, toS: 1500 };
        const cropped = { ...run.series, cropFromS: 20, cropToS: 1700 };
        return { ...run, startMs: 1e12, series: cropped, windows: run.role === "total" ? [window] : [] };
      });
      const moved = resultOf(runs.map((run) => later(run, shiftS)));
      const still = resultOf(runs);
      expect(largestDifference(moved, still)).toBeLessThan(1e-9);
      expect(moved.total.window.fromS - still.total.window.fromS).toBeCloseTo(shiftS, 6);
      expect(moved.natural.decays[0]!.window.toS - still.natural.decays[0]!.window.toS).toBeCloseTo(shiftS, 6);
    }),
    CASES,
  );
});

test("nor where that of one log starts; without marks rounding may move an end that falls on a row to its neighbour", () => {
  fc.assert(
    fc.property(occasions, fc.noBias(fc.integer({ min: -90_000, max: 90_000 })), (occasion, shiftS) => {
      const log = markedLog(occasion);
      expect(largestDifference(resultOf([later(log, shiftS)]), resultOf([log]))).toBeLessThan(1e-9);
      const unmarked = { ...log, marks: [] };
      const [moved, still] = [resultOf([later(unmarked, shiftS)]), resultOf([unmarked])];
      const ends = moved.natural.decays[0]!.window.toS - still.natural.decays[0]!.window.toS - shiftS;
      expect(Math.abs(ends)).toBeLessThan(1.001 * occasion.intervalS);
      expect(Math.abs(moved.cadrM3PerH.value - still.cadrM3PerH.value)).toBeLessThan(0.5 * still.cadrM3PerH.u);
    }),
    CASES,
  );
});
