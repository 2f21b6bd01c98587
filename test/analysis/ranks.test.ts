import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { intervalAt } from "../../analysis/pooling/part-relative.ts";
import {
  familyFor,
  rankRange,
  rankRanges,
  ranksOf,
  simultaneousInterval,
  simultaneousTail,
} from "../../analysis/ranks.ts";

describe("simultaneous intervals", () => {
  // scipy 1.17: a = 1 − 0.95**(1/n); a/2 and stats.t.isf(a/2, dof)
  test.each([
    [1, Infinity, 0.025, 1.959963985],
    [10, Infinity, 0.002558098446, 2.799625225],
    [30, 8, 0.0008541578222, 4.620845158],
    [1000, 30, 2.564598945e-5, 4.720134111],
    [100_000, 24, 2.564664062e-7, 6.783723287],
  ])("of a family of %d at %d dof", (family, dof, tail, t) => {
    expect(simultaneousTail(family) / tail).toBeCloseTo(1, 8);
    const estimate = { value: 200, u: 30, dof, relativeU: 0.13 };
    const { low, high } = intervalAt(estimate, t);
    const found = simultaneousInterval(estimate, family);
    expect(found.low / low).toBeCloseTo(1, 7);
    expect(found.high / high).toBeCloseTo(1, 7);
  });

  test("the family goes up by powers of two, and is never none", () => {
    expect([0, 1, 2, 3, 1000, 1024, 1025].map(familyFor)).toEqual([1, 1, 2, 4, 1024, 1024, 2048]);
    expect(() => simultaneousTail(0)).toThrow(RangeError);
  });
});

describe("rank ranges", () => {
  test("by hand: one surely first, two that tie, one that may be second to fourth", () => {
    const shown = [
      { low: 300, high: 400 },
      { low: 210, high: 260 },
      { low: 100, high: 205 },
      { low: 150, high: 250 },
    ];
    expect(rankRanges(shown)).toEqual([
      { best: 1, worst: 1 },
      { best: 2, worst: 3 },
      { best: 3, worst: 4 },
      { best: 2, worst: 4 },
    ]);
  });

  test("ends that touch do not part; counts of a database say the same", () => {
    const touching = [
      { low: 1, high: 2 },
      { low: 2, high: 3 },
    ];
    expect(rankRanges(touching)).toEqual(touching.map(() => ({ best: 1, worst: 2 })));
    expect(rankRange(30, 4, 7)).toEqual({ best: 5, worst: 23 });
    expect(rankRanges([])).toEqual([]);
  });

  const interval = fc
    .tuple(fc.integer({ min: -20, max: 60 }), fc.integer({ min: 0, max: 30 }))
    .map(([low, width]) => ({ low, high: low + width }));

  test("are those of looking at every pair", () => {
    fc.assert(
      fc.property(fc.array(interval, { maxLength: 40 }), (shown) => {
        const byPairs = shown.map(({ low, high }) => ({
          best: 1 + shown.filter((other) => other.low > high).length,
          worst: shown.length - shown.filter((other) => other.high < low).length,
        }));
        expect(rankRanges(shown)).toEqual(byPairs);
      }),
    );
  });

  test("hold the true rank whenever all intervals hold the truth", () => {
    const entry = fc.tuple(interval, fc.double({ min: 0, max: 1, noNaN: true }));
    fc.assert(
      fc.property(fc.array(entry, { minLength: 1, maxLength: 30 }), (entries) => {
        const truth = ranksOf(entries.map(([{ low, high }, share]) => low + share * (high - low)));
        rankRanges(entries.map(([shown]) => shown)).forEach(({ best, worst }, i) => {
          expect(truth[i]).toBeGreaterThanOrEqual(best);
          expect(truth[i]).toBeLessThanOrEqual(worst);
        });
      }),
    );
  });

  test("equal values share a rank", () => expect(ranksOf([5, 9, 5, 1])).toEqual([2, 1, 2, 4]));
});
