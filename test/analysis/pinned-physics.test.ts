import { describe, expect, test } from "vitest";
import { logLinearFit } from "../../analysis/log-linear-fit.ts";
import { coagulating } from "../../analysis/simulate/coagulating.ts";
import type { CounterModel, Scenario } from "../../analysis/simulate/scenario.ts";
import { simulateLog } from "../../analysis/simulate/simulate-log.ts";
import type { RoomPhysics } from "../../analysis/simulate/well-mixed.ts";

/*
 * What a plain log-linear fit reads of a decay that is not one exponential. Every figure was computed independently of
 * this project (the project's reference notes, marked as computed there): fits over 30 min with a reading a minute.
 */

/** A log of 30 min with a reading a minute that begins at its peak; the cleaner stands idle. */
function decayOf(
  k: number,
  startPerCm3: number,
  more: Partial<CounterModel> = {},
  physics?: RoomPhysics,
  background = 0,
) {
  const scenario: Scenario = {
    seed: 1,
    room: { volumeM3: 30, kNaturalPerH: k },
    cleaner: { cadrM3PerH: 0 },
    aerosol: {
      startPerCm3,
      backgroundPerCm3: background,
      densityGPerCm3: 1,
      sizes: [{ fromUm: 0.1, toUm: 1, share: 1 }],
    },
    counter: {
      intervalS: 60,
      channels: [{ id: "n", quantity: "number", unit: "1/cm3", fromUm: 0.1, toUm: 1, cumulative: "none" }],
      noise: { white: 0, ouSd: 0, ouTauS: 0 },
      step: null,
      ceiling: null,
      smoothing: null,
      sampleVolumeCm3: null,
      ...more,
    },
    schedule: { cleanAirS: 0, feedS: 0, naturalS: 1800, totalS: 0 },
  };
  const { series } = simulateLog(scenario, physics);
  return { tHours: series.tS.map((t) => t / 3600), values: series.channels[0]!.values };
}

function slope({ tHours, values }: { tHours: Float64Array; values: Float64Array }, fromS = 0): number {
  const from = tHours.findIndex((t) => t * 3600 >= fromS - 1e-6);
  return logLinearFit(tHours.slice(from), values.slice(from)).kPerH;
}

test.each([
  [0.3, 1e4, 0.3233],
  [5, 1e4, 5.0085],
  [0.3, 1e5, 0.521],
  [5, 1e5, 5.0827],
  [0.3, 1e6, 1.8138],
  [5, 1e6, 5.67],
])("coagulation, K = 7e-10 cm³/s: k = %s /h from %s /cm³ reads %s", (k, start, reads) => {
  expect(slope(decayOf(k, start, {}, coagulating(7e-10)))).toBeCloseTo(reads, 4);
});

test.each([
  [0.05, 4.9135],
  [0.1, 4.8224],
  [0.2, 4.6239],
])("dead time: k = 5 /h with a loss of %s at the start reads %s", (loss, reads) => {
  const deadTime = { flowCm3PerS: 50, deadTimeS: -Math.log(1 - loss) / 50 / 1000 };
  expect(slope(decayOf(5, 1000, { deadTime }))).toBeCloseTo(reads, 4);
});

test.each([
  [60, 4.95, 4.9993],
  [120, 4.836, 4.9952],
])("lag of %s s: k = 5 /h reads %s, once five of it are left out %s", (timeS, reads, settled) => {
  const log = decayOf(5, 1000, { smoothing: { kind: "lag", timeS } });
  expect(slope(log)).toBeCloseTo(reads, 3);
  expect(slope(log, 5 * timeS)).toBeCloseTo(settled, 4);
});

test("a trailing mean leaves the slope exact once its width is past", () => {
  const log = decayOf(5, 1000, { smoothing: { kind: "moving_mean", timeS: 120 } });
  expect(slope(log)).toBeLessThan(4.97);
  expect(slope(log, 120)).toBeCloseTo(5, 10);
});

test.each([
  [0.01, 5.687],
  [0.05, 4.774],
  [0.1, 4.04],
])("a background of %s of the start left in: k = 6 /h reads %s", (share, reads) => {
  expect(slope(decayOf(6, 1000, {}, undefined, 1000 * share))).toBeCloseTo(reads, 3);
});

describe("logarithms of Poisson counts", () => {
  test.each([
    [10, -0.05511, 0.1202],
    [100, -0.00504, 0.01015],
  ])("μ = %s: E ln N − ln μ = %s, Var ln N = %s", (mean, bias, variance) => {
    const counts = countsOf(mean);
    const logs = counts.filter((n) => n > 0).map(Math.log);
    const average = logs.reduce((sum, x) => sum + x, 0) / logs.length;
    const spread = logs.reduce((sum, x) => sum + (x - average) ** 2, 0) / logs.length;
    const standardError = Math.sqrt(variance / logs.length);
    expect(Math.abs(average - Math.log(mean) - bias)).toBeLessThan(4 * standardError);
    expect(Math.abs(spread / variance - 1)).toBeLessThan(0.015);
  });
});

/** 400 000 counts of air that does not change. */
function countsOf(mean: number): Float64Array {
  const { values } = simulateLog({
    seed: 7,
    room: { volumeM3: 30, kNaturalPerH: 0 },
    cleaner: { cadrM3PerH: 0 },
    aerosol: {
      startPerCm3: mean,
      backgroundPerCm3: 0,
      densityGPerCm3: 1,
      sizes: [{ fromUm: 0.1, toUm: 1, share: 1 }],
    },
    counter: {
      intervalS: 1,
      channels: [{ id: "n", quantity: "raw", unit: "1", fromUm: 0.1, toUm: 1, cumulative: "none" }],
      noise: { white: 0, ouSd: 0, ouTauS: 0 },
      step: null,
      ceiling: null,
      smoothing: null,
      sampleVolumeCm3: 1,
    },
    schedule: { cleanAirS: 0, feedS: 0, naturalS: 400_000, totalS: 0 },
  }).series.channels[0]!;
  return values;
}
