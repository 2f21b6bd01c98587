import { scaleLinear, scaleLog } from "d3-scale";
import { line } from "d3-shape";
import fc from "fast-check";
import { expect, test } from "vitest";
import { evenTicks, linearScale, linePath, logScale } from "../../../api/pages/charts/scales.ts";

const ends = (min: number) =>
  fc
    .tuple(fc.double({ min, max: 1e4, noNaN: true }), fc.double({ min: 1e-3, max: 1e4, noNaN: true }))
    .map(([low, more]): [number, number] => [low, low + more]);
const share = fc.double({ min: 0, max: 1, noNaN: true });

test("positions are d3-scale's", () => {
  fc.assert(
    fc.property(ends(1e-3), share, ([low, high], at) => {
      const value = low + at * (high - low);
      expect(linearScale([low, high], [64, 844])(value)).toBeCloseTo(scaleLinear([low, high], [64, 844])(value), 6);
      expect(logScale([low, high], [300, 14])(value)).toBeCloseTo(scaleLog([low, high], [300, 14])(value), 6);
    }),
  );
});

test("marks are d3-scale's", () => {
  fc.assert(
    fc.property(ends(-50), fc.integer({ min: 3, max: 9 }), (domain, count) => {
      expect(evenTicks(domain, count)).toEqual(scaleLinear(domain, [0, 1]).ticks(count));
    }),
    { numRuns: 2000 },
  );
});

test("a line is d3-shape's", () => {
  const points: [number, number][] = [
    [64, 20.5],
    [70.1, 33],
    [80, 41.2],
  ];
  expect(linePath(points)).toBe(line()(points));
  expect(linePath([])).toBe("");
});
