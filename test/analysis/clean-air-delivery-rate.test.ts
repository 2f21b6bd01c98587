import { expect, test } from "vitest";
import { cleanAirDeliveryRate } from "../../analysis/clean-air-delivery-rate.ts";
import { coverageFactor95 } from "../../analysis/estimate.ts";
import { logLinearFit } from "../../analysis/log-linear-fit.ts";
import gumH3 from "../fixtures/gum-h3.fixture.json" with { type: "json" };
import { fewestAgreeingDigits } from "./agreeing-digits.ts";

// A synthetic chain computed independently: V = 30 m³, u(V) = 0.3, readings every two minutes, natural background none.
const T_HOURS = Array.from({ length: 11 }, (_, i) => (2 * i) / 60);
const ON = [30300, 24074, 20106, 15658, 12951, 10603, 8425, 6898, 5703, 4396, 3710];
const OFF = [30060, 29642, 29435, 29113, 28737, 28622, 28253, 27944, 27749, 27363, 27145];
const VOLUME = { value: 30, u: 0.3, dof: Infinity };

function pinnedChain() {
  const on = logLinearFit(T_HOURS, ON);
  const off = logLinearFit(T_HOURS, OFF);
  return cleanAirDeliveryRate(VOLUME, {
    totalPerH: { value: on.kPerH, u: on.uPerH, dof: on.dof },
    naturalPerH: { value: off.kPerH, u: off.uPerH, dof: off.dof },
    covariance: 0,
    others: [],
  });
}

test("log-linear k and its standard error on the pinned chain", () => {
  const on = logLinearFit(T_HOURS, ON);
  const off = logLinearFit(T_HOURS, OFF);
  expect(on.kPerH).toBeCloseTo(6.314148253, 8);
  expect(on.uPerH).toBeCloseTo(0.048568785, 8);
  expect(off.kPerH).toBeCloseTo(0.301614301, 8);
  expect(off.uPerH).toBeCloseTo(0.005691437, 8);
  expect([on.dof, off.dof]).toEqual([9, 9]);
});

test("CADR, its budget, u, dof and expanded uncertainty on the pinned chain", () => {
  const { cadrM3PerH, kDifferencePerH, budget } = pinnedChain();
  expect(cadrM3PerH.value).toBeCloseTo(180.376019, 5);
  const u = Object.fromEntries(budget.map((part) => [part.source, part.u]));
  expect(u.volume).toBeCloseTo(1.80376, 6);
  expect(u.total_fit).toBeCloseTo(1.457064, 6);
  expect(u.natural_fit).toBeCloseTo(0.170743, 6);
  expect(cadrM3PerH.u).toBeCloseTo(2.325024, 6);
  expect(cadrM3PerH.dof).toBeCloseTo(58.339, 3);
  expect(coverageFactor95(cadrM3PerH.dof) * cadrM3PerH.u).toBeCloseTo(4.654042, 6);
  expect(kDifferencePerH.u).toBeCloseTo(Math.hypot(1.457064, 0.170743) / 30, 7);
  expect(budget.reduce((sum, part) => sum + part.share, 0)).toBeCloseTo(1, 12);
});

test("the line is that of GUM H.3: its thermometer corrections as logarithms of readings", () => {
  const { data, t0, published, recomputed } = gumH3;
  const fit = logLinearFit(
    data.map(([t]) => t! - t0),
    data.map(([, b]) => Math.exp(b!)),
  );
  const ours = [-fit.kPerH, fit.uPerH, Math.log(fit.amplitude)];
  expect(fewestAgreeingDigits(ours, [recomputed.y2, recomputed.sY2, recomputed.y1])).toBeGreaterThan(11);
  expect(-fit.kPerH).toBeCloseTo(published.y2, 5);
  expect(fit.uPerH).toBeCloseTo(published.sY2, 5);
  expect(Math.log(fit.amplitude)).toBeCloseTo(published.y1, 4);
  expect(fit.dof).toBe(published.degreesOfFreedom);
});

test("a background left in flattens the line, one taken off restores it, and readings under 5 % end it", () => {
  const t = Array.from({ length: 61 }, (_, i) => i / 120);
  const withFloor = t.map((h) => 900 * Math.exp(-6 * h) + 100);
  expect(logLinearFit(t, withFloor).kPerH).toBeLessThan(4.5);
  expect(logLinearFit(t, withFloor, 100).kPerH).toBeCloseTo(6, 10);
  expect(logLinearFit(t, withFloor, 100).dof).toBe(t.filter((h) => Math.exp(-6 * h) > 0.05).length - 2);
});

test("a fit over fewer than three readings is refused as too short", () => {
  expect(() => logLinearFit([0, 1], [2, 1])).toThrow(expect.objectContaining({ code: "too-short" }));
});
