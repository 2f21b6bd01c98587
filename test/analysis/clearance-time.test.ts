import { expect, test } from "vitest";
import { clearanceTimeMinutes } from "../../analysis/clearance-time.ts";
import cdc from "../fixtures/cdc-table-b1.fixture.json" with { type: "json" };

test.each(
  cdc.cases.flatMap(({ name, efficiencies, rows }) =>
    (rows as [number, number[]][]).map(([ach, minutes]) => ({ name, ach, minutes, efficiencies })),
  ),
)("$name: $ach air changes an hour", ({ ach, minutes, efficiencies }) => {
  expect(efficiencies.map((removed) => Math.round(clearanceTimeMinutes(ach, removed)))).toEqual(minutes);
});

test("half is gone after one half-life, ln 2 · 60/ACH, and nothing at once", () => {
  expect(clearanceTimeMinutes(6, 0.5)).toBeCloseTo(10 * Math.LN2, 12);
  expect(clearanceTimeMinutes(6, 0)).toBeCloseTo(0, 12);
});

test.each([
  [0, 0.99],
  [-1, 0.99],
  [Number.NaN, 0.99],
  [6, 1],
  [6, -0.1],
  [6, Number.NaN],
])("refuses %d air changes and a fraction of %d", (ach, removed) =>
  expect(() => clearanceTimeMinutes(ach, removed)).toThrow(RangeError),
);
