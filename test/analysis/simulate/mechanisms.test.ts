import { describe, expect, it } from "vitest";
import { coagulating } from "../../../analysis/simulate/coagulating.ts";
import { loseToDeadTime } from "../../../analysis/simulate/dead-time-loss.ts";
import { driftingCleaner } from "../../../analysis/simulate/drifting-cleaner.ts";
import { fractalNoise } from "../../../analysis/simulate/fractal-noise.ts";
import { gainAt } from "../../../analysis/simulate/gain-drift.ts";
import { createRandom } from "../../../analysis/simulate/random.ts";
import type { Scenario } from "../../../analysis/simulate/scenario.ts";
import { simulateLog } from "../../../analysis/simulate/simulate-log.ts";
import { twoZones } from "../../../analysis/simulate/two-zones.ts";
import { type RoomPhysics, wellMixed } from "../../../analysis/simulate/well-mixed.ts";
import { NOISY, QUIET } from "./scenario-example.ts";

const K_NATURAL = 0.3 / 3600;
const K_TOTAL = 4.3 / 3600;
const ON_S = 2220;
/** The whole log of QUIET at times that fall on no step of a solver. */
const TIMES = Array.from({ length: 200 }, (_, i) => 29.1 * i);

function worstAgainstWellMixed(physics: RoomPhysics): number {
  const [air, mixed] = [physics(QUIET), wellMixed(QUIET)];
  return Math.max(...TIMES.map((t) => Math.abs(air(t)[0]! / mixed(t)[0]! - 1)));
}

describe("every mechanism switched off is the well-mixed room, through clean air, feed and both decays", () => {
  it.each([
    ["no drift", driftingCleaner(0), 1e-8],
    ["no coagulation", coagulating(0), 1e-8],
    ["zones that exchange all their air in seconds", twoZones(1e4, 0.5), 2e-2],
  ] as const)("%s", (_, physics, limit) => expect(worstAgainstWellMixed(physics)).toBeLessThan(limit));

  it("and zones come the closer the more they exchange", () => {
    const [far, near] = [2000, 4000].map((exchange) => worstAgainstWellMixed(twoZones(exchange, 0.5)));
    expect(far! / near!).toBeGreaterThan(1.8);
  });

  it("a background run stays clean", () => {
    const schedule = { cleanAirS: 600, feedS: 0, naturalS: 0, totalS: 0 };
    expect(coagulating(1e-9)({ ...QUIET, schedule })(300)).toEqual([20]);
  });
});

describe("two zones", () => {
  const scenario: Scenario = { ...QUIET, aerosol: { ...QUIET.aerosol, backgroundPerCm3: 0 } };

  it("at last fall by the smaller eigenvalue of the exchange", () => {
    const air = twoZones(300, 0.4)(scenario);
    const exchangePerS = 300 / 30 / 3600;
    const a = K_NATURAL + (K_TOTAL - K_NATURAL) / 0.6 + exchangePerS / 0.6;
    const d = K_NATURAL + exchangePerS / 0.4;
    const slowest = (a + d) / 2 - Math.sqrt(((a - d) / 2) ** 2 + exchangePerS ** 2 / (0.6 * 0.4));
    const seen = Math.log(air(ON_S + 1200)[0]! / air(ON_S + 3000)[0]!) / 1800;
    expect(seen / slowest).toBeCloseTo(1, 6);
    expect(slowest).toBeLessThan(0.95 * K_TOTAL);
  });

  it("leave the counter's zone as it was when the cleaner starts in the other", () => {
    const air = twoZones(300, 0.4)(scenario);
    const slopeAfter = (t: number) => Math.log(air(ON_S + t)[0]! / air(ON_S + t + 5)[0]!) / 5;
    expect(slopeAfter(0)).toBeLessThan(K_NATURAL + 0.1 * (K_TOTAL - K_NATURAL));
    expect(slopeAfter(600)).toBeGreaterThan(0.9 * K_TOTAL);
  });
});

describe("drift and coagulation", () => {
  it("a cleaner that slows by 30 % takes out as much as its mean in all, faster at first", () => {
    const clean: Scenario = { ...QUIET, aerosol: { ...QUIET.aerosol, backgroundPerCm3: 0 } };
    const air = driftingCleaner(-0.3)(clean);
    expect(Math.log(air(ON_S)[0]! / air(ON_S + 3600)[0]!)).toBeCloseTo(4.3, 8);
    expect(Math.log(air(ON_S)[0]! / air(ON_S + 360)[0]!)).toBeCloseTo(0.03 + 0.4 * (1 + 0.3 * 0.45), 8);
  });

  it("coagulation follows its closed solution", () => {
    const schedule = { cleanAirS: 0, feedS: 0, naturalS: 3600, totalS: 0 };
    const aerosol = { ...QUIET.aerosol, backgroundPerCm3: 0, startPerCm3: 3e5 };
    const air = coagulating(7e-10)({ ...QUIET, aerosol, schedule });
    for (const t of [1, 500, 1799, 3600]) {
      const left = Math.exp(-K_NATURAL * t);
      expect(air(t)[0]! / ((3e5 * left) / (1 + ((7e-10 * 3e5) / K_NATURAL) * (1 - left)))).toBeCloseTo(1, 9);
    }
  });

  it("clean air is held by its source although it coagulates", () => {
    const aerosol = { ...QUIET.aerosol, backgroundPerCm3: 5e4, startPerCm3: 0 };
    const schedule = { cleanAirS: 0, feedS: 0, naturalS: 3600, totalS: 0 };
    expect(coagulating(7e-10)({ ...QUIET, aerosol, schedule })(3600)[0]).toBeCloseTo(5e4, 6);
  });
});

describe("a counter's faults", () => {
  it("dead time falls with all sizes together", () => {
    const [small, large] = loseToDeadTime([600, 400], { flowCm3PerS: 50, deadTimeS: 4e-6 });
    expect(small).toBeCloseTo(600 * Math.exp(-0.2), 9);
    expect(large! / small!).toBeCloseTo(400 / 600, 12);
  });

  it("gain drifts from its excess to true", () => {
    const gainDrift = { excess: 0.1, settleS: 600 };
    const sharp = simulateLog(QUIET).series.channels[0]!.values;
    const drifted = simulateLog({ ...QUIET, counter: { ...QUIET.counter, gainDrift } }).series.channels[0]!.values;
    expect(drifted[0]! / sharp[0]!).toBeCloseTo(1.1, 12);
    expect(drifted[60]! / sharp[60]!).toBeCloseTo(gainAt(gainDrift, 600), 12);
    expect(gainAt(gainDrift, 1e9)).toBe(1);
  });

  it("fractal noise has its SD, and a variance of means that falls far slower than 1/n", () => {
    const draw = fractalNoise({ sd: 0.03, fastestS: 10, slowestS: 10_000 }, 10, createRandom(4));
    const values = Array.from({ length: 200_000 }, draw);
    const variance = (v: readonly number[]) => v.reduce((sum, x) => sum + x * x, 0) / v.length;
    expect(Math.sqrt(variance(values))).toBeCloseTo(0.03, 2);
    const means = Array.from({ length: 2000 }, (_, i) => mean(values.slice(100 * i, 100 * (i + 1))));
    expect(variance(means) / variance(values)).toBeGreaterThan(0.3); // white noise: 0.01
    expect(variance(means) / variance(values)).toBeLessThan(0.8); // all slow: 1
  });

  it("none of them changes what a counter without them draws", () => {
    const none = { ...NOISY.counter, fractalNoise: { sd: 0, fastestS: 10, slowestS: 1000 } };
    expect(simulateLog({ ...NOISY, counter: none })).toEqual(simulateLog(NOISY));
  });
});

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
