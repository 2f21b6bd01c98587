import fc from "fast-check";
import { expect, test } from "vitest";
import type { BandResult } from "../../../analysis/analysis.ts";
import type { Role, Run } from "../../../analysis/trial.ts";
import { runOf } from "../trial-of.ts";
import { CASES, END_S, FED_S, FEED_S, markedLog, ON_S, occasions, resultOf } from "./generated-trial.ts";

/** The rows within [fromS, toS) as a run of their own, its clock begun anew. */
function cut({ series }: Run, index: number, role: Role, fromS: number, toS: number): Run {
  const rows = [...series.tS.keys()].filter((i) => series.tS[i]! >= fromS && series.tS[i]! < toS);
  const channels = series.channels.map((c) => ({ ...c, values: Float64Array.from(rows, (i) => c.values[i]!) }));
  const tS = Float64Array.from(rows, (i) => series.tS[i]! - fromS);
  return runOf(index, role, tS, channels);
}

/** By how many u(CADR) the files cut from each log differ from the log, log by log. */
function differences(cuts: (log: Run, whole: BandResult) => Run[]): number[] {
  const inU: number[] = [];
  fc.assert(
    fc.property(occasions, (occasion) => {
      const log = markedLog(occasion);
      const whole = resultOf([log]);
      const several = resultOf(cuts(log, whole));
      expect(several.natural.source).toBe(whole.natural.source);
      inU.push(Math.abs(several.cadrM3PerH.value - whole.cadrM3PerH.value) / whole.cadrM3PerH.u);
    }),
    CASES,
  );
  return inU;
}

const rootMeanSquare = (values: number[]) => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);

test("one log and its windows as background, natural and total files: only where the noise settles differs", () => {
  const inU = differences((log, { natural, total }) => [
    cut(log, 0, "background", 0, FEED_S),
    cut(log, 1, "natural", natural.decays[0]!.window.fromS, natural.decays[0]!.window.toS + 1),
    cut(log, 2, "total", total.window.fromS, total.window.toS + 1),
  ]);
  expect(Math.max(...inU)).toBeLessThan(0.25);
  expect(rootMeanSquare(inU)).toBeLessThan(0.04);
});

test("one log, and files cut where it was marked, which wait for no feed to settle: a small part of u", () => {
  const inU = differences((log) => [
    cut(log, 0, "background", 0, FEED_S),
    cut(log, 1, "natural", FED_S, ON_S),
    cut(log, 2, "total", ON_S, END_S + 1),
  ]);
  expect(Math.max(...inU)).toBeLessThan(0.6);
  expect(rootMeanSquare(inU)).toBeLessThan(0.2);
});
