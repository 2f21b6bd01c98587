import fc from "fast-check";
import { expect, test } from "vitest";
import { parseUnit } from "../../../analysis/units.ts";
import { statedFlow } from "../../../api/pages/configuration/stated-words.tsx";
import { between, figures, plusMinus, range, unitWords } from "../../../api/pages/figures.ts";

// GUM 7.2.6: u to two digits, the value to the same place.
test.each([
  [155.72, 9.97, "156 ± 10"],
  [601.28, 31.2, "601 ± 31"],
  [880.4, 47.3, "880 ± 47"],
  [851.3, 268, "850 ± 270"],
  [0.6471, 0.0443, "0.647 ± 0.044"],
  [-12.34, 4.56, "−12.3 ± 4.6"],
  [7, 0.000123, "7.00000 ± 0.00012"],
  [12_345, 1234, "12\u202f300 ± 1200"],
  [790_123, 230_000, "790\u202f000 ± 230\u202f000"],
  [-12_345.678, 0.5, "−12\u202f345.68 ± 0.50"],
  [-3, 990, "0 ± 990"],
])("%d with U %d is quoted as %s", (value, expanded, words) => {
  expect(plusMinus({ value, low: value - expanded, high: value + expanded })).toBe(words);
});

test("an interval that is not symmetric shows both its ends", () => {
  expect(range({ value: 2.147, low: 2.099, high: 2.196 })).toBe("2.147 (2.099 to 2.196)");
});

test("an end that is cut at 0 is a bare 0", () => {
  expect(range({ value: 0.42, low: 0, high: 1.3 })).toBe("0.42 (0 to 1.30)");
  expect(between({ low: 0, high: 1.3 })).toBe("0 to 1.30");
});

test.each([
  [125, "[cft_i]/min", "73.6 cfm"],
  [125, "m3/h", "125 m³/h"],
  [2600, "[cft_i]/min", "1530 cfm"],
  [1234, "m3/h", "1234 m³/h"],
  [150 * 1.69901079552, "[cft_i]/min", "150 cfm"],
  [150 * 1.69901079552, "m3/h", "255 m³/h"],
] as const)("a stated flow of %d m³/h in %s has the digits it was stated with: %s", (m3PerH, flow, said) => {
  expect(statedFlow(m3PerH, flow)).toBe(said);
});

test("microseconds are read and shown with either letter mu", () => {
  for (const text of ["us", "µs", "μs"]) expect(parseUnit(text, "time").code).toBe("us");
  expect(unitWords("us")).toBe("µs");
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
        const written = figures(value, expanded);
        const shown = {
          value: written.value.replaceAll("\u202f", ""),
          expanded: written.expanded.replaceAll("\u202f", ""),
        };
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
