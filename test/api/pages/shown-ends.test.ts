import fc from "fast-check";
import { expect, test } from "vitest";
import { endsWithin, shownEnds } from "../../../api/pages/charts/shown-ends.ts";

const about = (value: number) => ({ low: 0.8 * value, high: 1.2 * value });

test("a giant does not press the others flat", () => {
  expect(shownEnds([100, 250, 600, 790000].map(about))).toEqual({ low: 0, high: 720 });
  expect(shownEnds([200, 790000].map(about))).toEqual({ low: 0, high: 240 });
  expect(shownEnds([...[100, 250].map(about), { low: -5e6, high: 5e6 }])).toEqual({ low: 0, high: 300 });
});

test("what differs less than tenfold from the middle is drawn whole", () => {
  const values = fc.array(fc.double({ min: 1, max: 9.9, noNaN: true }), { minLength: 1, maxLength: 30 });
  fc.assert(
    fc.property(values, (all) => {
      expect(shownEnds(all.map(about)).high).toBe(Math.max(...all.map((v) => 1.2 * v)));
    }),
  );
});

test("more than half of the rows are always drawn whole, the middle one over a tenth of the width", () => {
  const interval = fc
    .tuple(fc.double({ min: -1e3, max: 1e9, noNaN: true }), fc.double({ min: 0, max: 1e9, noNaN: true }))
    .map(([low, more]) => ({ low, high: low + more }));
  fc.assert(
    fc.property(fc.array(interval, { minLength: 1, maxLength: 30 }), (rows) => {
      const { low, high } = shownEnds(rows);
      const whole = rows.filter((row) => row.low >= low && row.high <= high);
      expect(2 * whole.length).toBeGreaterThanOrEqual(rows.length);
      const reaches = rows.map((row) => Math.max(-row.low, row.high)).sort((a, b) => a - b);
      expect(Math.max(-low, high)).toBeLessThanOrEqual(10 * reaches[(rows.length - 1) >> 1]!);
    }),
  );
});

test("differences from a giant run off where there is another, and are drawn whole where there is none", () => {
  const [ab, ac, bc] = [about(790000), about(790100), { low: -150, high: 420 }];
  expect(endsWithin([ab, ac, bc], 2000)).toEqual({ low: -150, high: 420 });
  expect(endsWithin([ab], 2000)).toEqual({ low: 0, high: ab.high });
});
