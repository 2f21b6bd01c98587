import { describe, expect, test } from "vitest";
import { cubicRss, fitBrokenLine } from "../../analysis/broken-line.ts";
import reference from "../fixtures/segmented.fixture.json" with { type: "json" };

describe.each(reference.cases)("segmented regression, $id", ({ data, recomputed }) => {
  const sorted = [...data].sort((a, b) => a[0]! - b[0]!);
  const x = Float64Array.from(sorted, (point) => point[0]!);
  const y = Float64Array.from(sorted, (point) => point[1]!);

  test("finds the global least-squares breakpoint, slopes and error of their difference", () => {
    const fit = fitBrokenLine(x, y)!;
    expect(fit.rss).toBeCloseTo(recomputed.rss, 12);
    expect(fit.breakpoint).toBeCloseTo(recomputed.breakpoint, 6);
    expect(fit.intercept).toBeCloseTo(recomputed.intercept, 6);
    expect(fit.slope1).toBeCloseTo(recomputed.slope1, 6);
    expect(fit.slope2).toBeCloseTo(recomputed.slope2, 6);
    expect(fit.uSlopeDifference).toBeCloseTo(recomputed.seSlopeDifference, 6);
  });
});

test("a cubic fits a cubic exactly and a corner worse than a broken line does", () => {
  const x = Float64Array.from({ length: 30 }, (_, i) => i);
  expect(
    cubicRss(
      x,
      x.map((v) => 3 - v + 0.2 * v ** 2 - 0.01 * v ** 3),
    ),
  ).toBeLessThan(1e-12);
  const corner = x.map((v) => 5 - 0.1 * v - 0.5 * Math.max(0, v - 15));
  expect(cubicRss(x, corner)).toBeGreaterThan(1);
  expect(fitBrokenLine(x, corner)!.rss).toBeLessThan(1e-12);
});

test("too few points have no corner", () => {
  expect(fitBrokenLine(Float64Array.of(0, 1, 2, 3), Float64Array.of(0, 0, 1, 2))).toBeNull();
});
