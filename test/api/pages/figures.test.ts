import fc from "fast-check";
import { expect, test } from "vitest";
import { figures, plusMinus, range } from "../../../api/pages/figures.ts";

// GUM 7.2.6: u to two digits, the value to the same place.
test.each([
  [155.72, 9.97, "156 ± 10"],
  [601.28, 31.2, "601 ± 31"],
  [880.4, 47.3, "880 ± 47"],
  [851.3, 268, "850 ± 270"],
  [0.6471, 0.0443, "0.647 ± 0.044"],
  [-12.34, 4.56, "−12.3 ± 4.6"],
  [7, 0.000123, "7.00000 ± 0.00012"],
  [12_345, 1234, "12300 ± 1200"],
  [-3, 990, "0 ± 990"],
])("%d with U %d is quoted as %s", (value, expanded, words) => {
  expect(plusMinus({ value, low: value - expanded, high: value + expanded })).toBe(words);
});

test("an interval that is not symmetric shows both its ends", () => {
  expect(range({ value: 2.147, low: 2.099, high: 2.196 })).toBe("2.147 (2.099 to 2.196)");
});

test("no number is shown with an exponent or as NaN, and the value is never off by more than half a place of U", () => {
  const exponent = fc.integer({ min: -5, max: 5 });
  fc.assert(
    fc.property(
      fc.double({ min: -1e5, max: 1e5, noNaN: true }),
      fc.double({ min: 1, max: 9.99, noNaN: true }),
      exponent,
      (value, digits, power) => {
        const expanded = digits * 10 ** power;
        const shown = figures(value, expanded);
        for (const text of [shown.value, shown.expanded]) expect(text).toMatch(/^−?\d+(\.\d+)?$/);
        const place = 10 ** (Math.floor(Math.log10(Number(expanded.toPrecision(2)))) - 1);
        expect(Math.abs(Number(shown.value.replace("−", "-")) - value)).toBeLessThanOrEqual(place / 2 + 1e-9);
        expect(Number(shown.expanded)).toBeCloseTo(Number(expanded.toPrecision(2)), 9);
      },
    ),
  );
});

test("an uncertainty of nothing still gives words", () => {
  expect(figures(3, 0)).toEqual({ value: "3", expanded: "0" });
});
