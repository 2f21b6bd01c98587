import { describe, expect, test } from "vitest";
import { writtenIn, writtenNumber } from "../../../api/pages/form/written-number.ts";

describe("numbers as people write them", () => {
  test.each([
    ["2.4", "", 2.4],
    [" 2,4 ", "", 2.4],
    ["−3", "", -3],
    ["4.153 m3", "m3", 4.153],
    ["4,15 m³", "m3", 4.15],
    ["4,15 cubic metres", "m3", 4.15],
    ["146.7 cu ft", "[cft_i]", 146.7],
    ["2.4 m", "m", 2.4],
    ["45 %", "%", 45],
    ["48,9 dB(A)", "dB(A)", 48.9],
    ["22.2 min", "min", 22.2],
  ] as const)("%s in %j is %d", (text, unit, value) => expect(writtenNumber(text, unit)).toBe(value));

  test.each([
    ["4.153 m3", "[cft_i]"],
    ["4.153 m", "m3"],
    ["2.4 m", ""],
    ["1:22", "min"],
    ["1.2.3", ""],
    ["1,234.5", ""],
    ["", ""],
    ["m", "m"],
    ["1e3", ""],
  ] as const)("%s in %j is none", (text, unit) => expect(writtenNumber(text, unit)).toBeNaN());
});

describe("lengths as a tape has them, in feet", () => {
  test.each([
    ["10", 10],
    ["10,5", 10.5],
    ["10 ft", 10],
    [`4' 11"`, 4 + 11 / 12],
    [`4'11"`, 4 + 11 / 12],
    ["4′ 11″", 4 + 11 / 12],
    ["4’ 11”", 4 + 11 / 12],
    ["4' 11''", 4 + 11 / 12],
    ["4 ft 11 in", 4 + 11 / 12],
    ["4ft 11in", 4 + 11 / 12],
    ["4 ft. 11 in.", 4 + 11 / 12],
    ["4 feet, 11 inches", 4 + 11 / 12],
    ["6 ¾", 6.75],
    ["6¾", 6.75],
    ["¾", 0.75],
    ["6 3/4", 6.75],
    ["4' 11 1/2\"", 4 + 11.5 / 12],
    ["4' 11½\"", 4 + 11.5 / 12],
    ["59 in", 59 / 12],
    ['59 ¼"', 59.25 / 12],
    ["4'", 4],
  ])("%s is %d", (text, feet) => expect(writtenIn(text, "[ft_i]")).toBeCloseTo(feet, 12));

  test.each(["4 m", "4 11", "4' 11' 2\"", "ft", "in", '4" 11"', "1/0", "4 cm", "six", "-4' 2\"", "1.2.3' 4\""])(
    "%s is none",
    (text) => expect(Number.isFinite(writtenIn(text, "[ft_i]"))).toBe(false),
  );
});
