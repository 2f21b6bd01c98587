import { describe, expect, it } from "vitest";
import type { Scenario } from "../../../analysis/simulate/scenario.ts";
import { simulateLog, simulateRuns } from "../../../analysis/simulate/simulate-log.ts";
import { DRESSES, toCsv } from "../../../analysis/simulate/to-csv.ts";
import { wellMixed } from "../../../analysis/simulate/well-mixed.ts";
import { NOISY, QUIET } from "./scenario-example.ts";

/** −Δ ln(C − B)/Δt between two rows, per hour. */
function slopePerHour(
  { tS, values }: { tS: Float64Array; values: Float64Array },
  level: number,
  from: number,
  to: number,
): number {
  const hours = (tS[to]! - tS[from]!) / 3600;
  return Math.log((values[from]! - level) / (values[to]! - level)) / hours;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

describe("a log without noise", () => {
  const { series, truth } = simulateLog(QUIET);
  const column = { tS: series.tS, values: series.channels[0]!.values };

  it("falls by k exactly in both decays", () => {
    expect(truth).toMatchObject({ feedEndS: 420, cleanerOnS: 2220 });
    const [channel] = truth.channels;
    expect(channel).toMatchObject({ kNaturalPerH: expect.closeTo(0.3, 12), cadrM3PerH: expect.closeTo(120, 10) });
    expect(channel!.kTotalPerH).toBeCloseTo(4.3, 12);
    for (let row = 43; row <= 222; row++) {
      expect(Math.abs(slopePerHour(column, 20, 42, row) / 0.3 - 1)).toBeLessThan(1e-9);
    }
    for (let row = 223; row < series.tS.length; row++) {
      expect(Math.abs(slopePerHour(column, channel!.floor, 222, row) / 4.3 - 1)).toBeLessThan(1e-9);
    }
  });

  it("lies at the clean level before the feed, and its floor under the cleaner is lower by k_n/k_total", () => {
    expect([...column.values.slice(0, 30)]).toEqual(Array(30).fill(20));
    expect(column.values[42]).toBeCloseTo(1020, 9);
    expect(truth.channels[0]!.floor).toBeCloseTo((20 * 0.3) / 4.3, 12);
    const long = simulateLog({ ...QUIET, schedule: { ...QUIET.schedule, totalS: 36_000 } }).series.channels[0]!.values;
    expect(long.at(-1)).toBeCloseTo((20 * 0.3) / 4.3, 9);
  });

  it("agrees with the differential equation integrated step by step", () => {
    const air = wellMixed(QUIET);
    const [kN, kT] = [0.3 / 3600, 4.3 / 3600];
    const feed = (1000 * kN) / -Math.expm1(-kN * 120);
    const slope = (t: number, c: number) =>
      t < 300 ? 0 : (t < 420 ? feed : 0) - kN * (c - 20) - (t >= 2220 ? (kT - kN) * c : 0);
    let c = 20;
    for (let t = 0; t < 5820; t++) {
      // Runge and Kutta, fourth order; phases begin on whole seconds, so a step never straddles one
      const inside = t + 1e-9;
      const k1 = slope(inside, c);
      const k2 = slope(inside, c + k1 / 2);
      const k3 = slope(inside, c + k2 / 2);
      const k4 = slope(inside, c + k3);
      c += (k1 + 2 * k2 + 2 * k3 + k4) / 6;
      if (t % 97 === 0) expect(air(t + 1)[0]).toBeCloseTo(c, 7);
    }
  });
});

describe("sizes and channels", () => {
  const twoSizes: Scenario = {
    ...QUIET,
    room: {
      volumeM3: 30,
      kNaturalPerH: [
        { sizeUm: 0.5, value: 0.2 },
        { sizeUm: 2, value: 0.8 },
      ],
    },
    cleaner: {
      cadrM3PerH: [
        { sizeUm: 0.5, value: 90 },
        { sizeUm: 2, value: 150 },
      ],
    },
    aerosol: {
      ...QUIET.aerosol,
      sizes: [
        { fromUm: 0.25, toUm: 1, share: 3 },
        { fromUm: 1, toUm: 4, share: 1 },
      ],
    },
    counter: {
      ...QUIET.counter,
      channels: [
        { id: "fine", quantity: "number", unit: "1/cm3", fromUm: 0.25, toUm: 1, cumulative: "none" },
        { id: "all", quantity: "number", unit: "1/cm3", fromUm: 0.25, toUm: null, cumulative: "above" },
        { id: "pm4", quantity: "mass", unit: "ug/m3", fromUm: null, toUm: 4, cumulative: "below" },
      ],
    },
  };
  const { series, truth } = simulateLog(twoSizes);

  it("each size decays by its own constants", () => {
    expect(truth.channels[0]!.kTotalPerH).toBeCloseTo(0.2 + 90 / 30, 12);
    const column = { tS: series.tS, values: series.channels[0]!.values };
    expect(slopePerHour(column, truth.channels[0]!.floor, 222, 400)).toBeCloseTo(3.2, 9);
  });

  it("a channel over both starts by the stated slope and bends to the slower one", () => {
    const all = { tS: series.tS, values: series.channels[1]!.values };
    const { kTotalPerH, floor } = truth.channels[1]!;
    const fine = simulateLog({ ...twoSizes, counter: { ...twoSizes.counter, intervalS: 0.01 } });
    const dense = { tS: fine.series.tS, values: fine.series.channels[1]!.values };
    expect(slopePerHour(dense, floor, 222_000, 222_001)).toBeCloseTo(kTotalPerH, 4);
    expect(slopePerHour(all, floor, 500, 580)).toBeLessThan(kTotalPerH - 0.1);
  });

  it("mass is π/6·ρ·d³ a particle", () => {
    const perSize = [15, 5].map((n, i) => (n * Math.PI * 2.17 * [0.5, 2][i]! ** 3) / 6);
    expect(series.channels[2]!.values[0]).toBeCloseTo(perSize[0]! + perSize[1]!, 10);
  });
});

describe("the counter", () => {
  const level = (counter: Partial<Scenario["counter"]>, seed = 5) =>
    simulateLog({
      ...QUIET,
      seed,
      schedule: { cleanAirS: 100_000, feedS: 0, naturalS: 0, totalS: 0 },
      counter: { ...QUIET.counter, ...counter },
    }).series.channels[0]!.values;

  it.each([0.05, 0.4, 2, 50])("counts scatter as Poisson: %s cm³ a reading", (sampleVolumeCm3) => {
    const counts = [...level({ sampleVolumeCm3 })].map((value) => value * sampleVolumeCm3);
    const expected = 20 * sampleVolumeCm3;
    const variance = mean(counts.map((count) => (count - expected) ** 2));
    expect(counts.every((count) => Math.abs(count - Math.round(count)) < 1e-9)).toBe(true);
    expect(Math.abs(mean(counts) / expected - 1)).toBeLessThan(4 / Math.sqrt(10_000 * expected));
    expect(Math.abs(variance / expected - 1)).toBeLessThan(4 * Math.sqrt((2 + 1 / expected) / 10_000));
  });

  it("noise with a memory: its size and its correlation over one interval", () => {
    const noise = [...level({ noise: { white: 0, ouSd: 0.05, ouTauS: 20 } })].map((value) => value / 20 - 1);
    const variance = mean(noise.map((x) => x * x));
    const lagged = mean(noise.slice(1).map((x, i) => x * noise[i]!));
    expect(Math.sqrt(variance)).toBeCloseTo(0.05, 2);
    expect(lagged / variance).toBeCloseTo(Math.exp(-10 / 20), 1);
  });

  it("white noise has none", () => {
    const noise = [...level({ noise: { white: 0.05, ouSd: 0, ouTauS: 0 } })].map((value) => value / 20 - 1);
    expect(Math.sqrt(mean(noise.map((x) => x * x)))).toBeCloseTo(0.05, 2);
    expect(Math.abs(mean(noise.slice(1).map((x, i) => x * noise[i]!)) / 0.05 ** 2)).toBeLessThan(0.05);
  });

  it("steps and ceiling", () => {
    const { values } = simulateLog({ ...QUIET, counter: { ...QUIET.counter, step: 0.1, ceiling: 999.9 } }).series
      .channels[0]!;
    expect(Math.max(...values)).toBe(999.9);
    expect([...values].every((value) => String(value).length <= 5)).toBe(true);
  });

  it("a lag of τ delays a slow decay by τ, a moving mean over T by T/2", () => {
    const read = (smoothing: Scenario["counter"]["smoothing"]) =>
      simulateLog({ ...QUIET, counter: { ...QUIET.counter, smoothing } }).series.channels[0]!.values[150]!;
    const sharp = wellMixed(QUIET);
    expect(read({ kind: "lag", timeS: 30 }) - 20).toBeCloseTo((sharp(1500)[0]! - 20) / (1 - (30 * 0.3) / 3600), 1);
    expect(read({ kind: "moving_mean", timeS: 60 })).toBeCloseTo(sharp(1470)[0]!, 1);
  });
});

describe("seeds and runs", () => {
  it("the same seed gives the same bytes, another seed others", () => {
    const bytes = (scenario: Scenario) => toCsv(simulateLog(scenario).series, DRESSES.comma);
    expect(bytes(NOISY)).toBe(bytes(structuredClone(NOISY)));
    expect(bytes({ ...NOISY, seed: 2 })).not.toBe(bytes(NOISY));
  });

  it("separate runs start at their peak and differ in noise", () => {
    const quiet = simulateRuns(QUIET, { background: 300, natural: 1800, total: 1800 });
    expect(new Set(quiet.background.series.channels[0]!.values)).toEqual(new Set([20]));
    expect(quiet.natural.series.channels[0]!.values[0]).toBe(1020);
    expect(quiet.natural.truth).toMatchObject({ feedEndS: 0, cleanerOnS: null });
    const total = { tS: quiet.total.series.tS, values: quiet.total.series.channels[0]!.values };
    expect(quiet.total.truth.cleanerOnS).toBe(0);
    expect(slopePerHour(total, quiet.total.truth.channels[0]!.floor, 0, 180)).toBeCloseTo(4.3, 9);
    const noisy = simulateRuns({ ...NOISY, cleaner: { cadrM3PerH: 0 } }, { background: 100, natural: 500, total: 500 });
    expect(noisy.natural.series.channels[0]!.values).not.toEqual(noisy.total.series.channels[0]!.values);
  });
});
