import { describe, expect, test } from "vitest";
import { UNIT_TABLE, type UnitRow } from "../../analysis/unit-table.ts";
import { type Dimension, listUnits, parseQuantityText, parseUnit, UnitError } from "../../analysis/units.ts";
import conversions from "../fixtures/unit-conversions.fixture.json" with { type: "json" };

const convert = (value: number, from: string, to: string) => {
  const unit = parseUnit(from);
  return parseUnit(to, unit.dimension).fromBase(unit.toBase(value));
};
const rowsOf = (name: string) => conversions.cases.find((each) => each.name === name)!.rows;
/** Not a unit of this table; a difference is a scale, not a reading. */
const LEFT_OUT = ["in3", "degF difference"];

describe("exact factors: foot 0.3048 m, litre 0.001 m³", () => {
  const factors = (rowsOf("factors") as [string, string, number][]).filter(([from]) => !LEFT_OUT.includes(from));
  test.each(factors)("%s to %s", (from, to, factor) => {
    expect(Math.abs(convert(1, from, to) / factor - 1)).toBeLessThan(4e-16);
  });
  test.each(rowsOf("worked-values") as [number, string, string, number][])("%d %s in %s", (value, from, to, result) => {
    expect(Math.abs(convert(value, from, to) / result - 1)).toBeLessThan(5e-16);
  });
  test("a chamber of 1008 ft³ is 28.5434 m³; 1 per 0.01 ft³ is 3.531467 per litre", () => {
    expect(convert(1008, "ft³", "m3")).toBeCloseTo(28.5434, 4);
    expect(convert(1, "#/0.01ft³", "1/L")).toBeCloseTo(3.531467, 6);
  });
  test("temperatures: fixed points of water, and a difference of 9 °F is 5 K", () => {
    expect(convert(32, "[degF]", "Cel")).toBeCloseTo(0, 12);
    expect(convert(212, "°F", "°C")).toBeCloseTo(100, 12);
    expect(convert(0, "Cel", "K")).toBe(273.15);
    expect(parseUnit("[degF]").scale * 9).toBeCloseTo(5, 12);
  });
});

describe("spellings", () => {
  test.each<[string, string, Dimension]>([
    ["m³", "m3", "volume"],
    ["m^3", "m3", "volume"],
    ["ft3", "[cft_i]", "volume"],
    ["cu ft", "[cft_i]", "volume"],
    ["m³/h", "m3/h", "flow"],
    ["cfm", "[cft_i]/min", "flow"],
    ["CFM", "[cft_i]/min", "flow"],
    ["ft³/min", "[cft_i]/min", "flow"],
    ["LPM", "L/min", "flow"],
    ["sq ft", "[sft_i]", "area"],
    ["#/cm3", "1/cm3", "number concentration"],
    ["#/cm³", "1/cm3", "number concentration"],
    ["/cm3", "1/cm3", "number concentration"],
    ["1/cm³", "1/cm3", "number concentration"],
    ["p/cm3", "1/cm3", "number concentration"],
    ["cm-3", "1/cm3", "number concentration"],
    ["cm⁻³", "1/cm3", "number concentration"],
    ["{particles}/cm3", "1/cm3", "number concentration"],
    ["#/L", "1/L", "number concentration"],
    ["#/0.1L", "1/dL", "number concentration"],
    ["#/0.1 L", "1/dL", "number concentration"],
    ["#/ft³", "1/[cft_i]", "number concentration"],
    ["counts/0.01 ft³", "100/[cft_i]", "number concentration"],
    ["\u00b5g/m³", "ug/m3", "mass concentration"], // micro sign
    ["\u03bcg/m³", "ug/m3", "mass concentration"], // Greek mu
    ["UG/M3", "ug/m3", "mass concentration"],
    ["ACH", "1/h", "rate"],
    ["h-1", "1/h", "rate"],
    ["h⁻¹", "1/h", "rate"],
    ["°C", "Cel", "temperature"],
    ["℃", "Cel", "temperature"],
    ["%", "%", "humidity"],
    ["%", "%", "fraction"],
    ["\u00b5m", "um", "particle size"],
    ["\u00b5s", "us", "time"],
    ["sec", "s", "time"],
    [" kW ", "kW", "power"],
  ])("%s is %s, a %s", (text, code, dimension) => {
    expect(parseUnit(text, dimension)).toMatchObject({ code, dimension });
  });

  test("dB says no weighting, dB(A) and dBA say A", () => {
    for (const text of ["dB", "dB[SPL]"]) expect(parseUnit(text)).toMatchObject({ code: "dB[SPL]", weighting: null });
    for (const text of ["dB(A)", "dBA", "dB[A]", "db(a)", "DBA"])
      expect(parseUnit(text, "sound level")).toMatchObject({ code: "dB[SPL]", weighting: "A" });
  });

  test("every code finds itself, and without a dimension keeps its size", () => {
    for (const [dimension, rows] of Object.entries(UNIT_TABLE))
      for (const { code, scale } of rows as readonly UnitRow[]) {
        expect(parseUnit(code, dimension as Dimension)).toMatchObject({ code, scale, dimension });
        if (code !== "%") expect(parseUnit(code)).toMatchObject({ code, scale, dimension });
      }
  });

  test("base units have size 1 and stand first", () => {
    const bases = Object.keys(UNIT_TABLE).map((dimension) => listUnits(dimension as Dimension)[0]!);
    expect(bases).toEqual([
      "m3",
      "m",
      "m2",
      "m3/h",
      "s",
      "1/cm3",
      "ug/m3",
      "1/h",
      "W",
      "Cel",
      "%",
      "dB[SPL]",
      "um",
      "1",
    ]);
    for (const rows of Object.values(UNIT_TABLE)) expect((rows[0] as UnitRow).scale).toBe(1);
  });

  test("no spelling, whatever its case, means two units of one dimension", () => {
    for (const rows of Object.values(UNIT_TABLE)) {
      const meaning = new Map<string, string>();
      for (const row of rows as readonly UnitRow[])
        for (const spelling of [row.code, ...row.aliases]) {
          const key = spelling.toLowerCase();
          expect(meaning.get(key) ?? row.code, spelling).toBe(row.code);
          meaning.set(key, row.code);
        }
    }
  });
});

describe("refusals", () => {
  test("an unknown unit lists those known", () => {
    const refused = expect.objectContaining({ name: "UnitError", known: ["m3", "L", "[cft_i]"] });
    expect(() => parseUnit("furlong", "volume")).toThrow(refused);
    expect(() => parseUnit("furlong", "volume")).toThrow(
      '"furlong" is not a known unit of volume; known are m3, L, [cft_i]',
    );
  });
  test("a unit of something else says of what", () =>
    expect(() => parseUnit("cfm", "volume")).toThrow('"cfm" is a unit of flow, not of volume; known are m3'));
  test("a capital prefix is another prefix: Mg/m3 would be a million times mg/m3", () =>
    expect(() => parseUnit("Mg/m3", "mass concentration")).toThrow(UnitError));
  test.each(["__proto__", "constructor", "toString", "", " ", "AQI", "m3/", "x".repeat(10_000)])("%.20s", (text) => {
    expect(() => parseUnit(text)).toThrow(UnitError);
    expect(() => parseUnit(text, "mass concentration")).toThrow(UnitError);
  });
});

describe("quantities in one word", () => {
  test.each([
    ["30m3", 30, "m3"],
    ["30 m3", 30, "m3"],
    ["30m³", 30, "m³"],
    ["1008ft3", 1008, "ft3"],
    ["5 1/min", 5, "1/min"],
    ["5+1/min", 5, "1/min"],
    ["51/min", 51, "/min"],
    ["2 100/[cft_i]", 2, "100/[cft_i]"],
    ["-3.5e1 Cel", -35, "Cel"],
    [" .5 m ", 0.5, "m"],
    ["48dB(A)", 48, "dB(A)"],
  ])("%s", (text, value, unit) => expect(parseQuantityText(text)).toEqual({ value, unit }));

  test.each([
    ["1,5 m3", "decimals take a dot"],
    ["30", "has no unit"],
    ["m3", "does not start with a number"],
    ["", "number"],
    ["1e400 m3", "beyond"],
    ["NaN m3", "number"],
    ["Infinity m3", "number"],
  ])("refuses %s", (text, why) => {
    expect(() => parseQuantityText(text)).toThrow(RangeError);
    expect(() => parseQuantityText(text)).toThrow(why);
  });

  test.each(["30 furlong", "0x10 m3", "1.2.3 m3", "30 m3 m3"])("refuses the unit of %s", (text) =>
    expect(() => parseQuantityText(text)).toThrow(UnitError),
  );
});
