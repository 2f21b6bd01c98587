import { describe, expect, it } from "vitest";
import { meaningOf } from "../../../analysis/reading/column-meaning.ts";
import { readLog } from "../../../analysis/reading/read-log.ts";

const size = (quantity: string, fromUm: number | null, toUm: number | null, cumulative: string, unit?: string) => ({
  role: "channel",
  channel: { quantity, fromUm, toUm, cumulative, ...(unit === undefined ? {} : { unit }) },
});

describe("what a name means", () => {
  it.each([
    ["PM10", size("mass", null, 10, "below", "ug/m3")],
    ["pm1.0", size("mass", null, 1, "below")],
    ["pm25", size("mass", null, 2.5, "below")],
    ["PM2.5 (mg/m³)", size("mass", null, 2.5, "below", "mg/m³")],
    ["nPM0.5", size("number", null, 0.5, "below", "1/cm3")],
    ["PM0.5 [#/cm³]", size("number", null, 0.5, "below")],
    [">0.3", size("raw", 0.3, null, "above", "1")],
    [">=0.5um", size("raw", 0.5, null, "above")],
    ["≥ 5 µm", size("raw", 5, null, "above")],
    ["0.3 µm", size("raw", 0.3, null, "above")],
    ["0.3um (1/L)", size("number", 0.3, null, "above", "1/L")],
    [">0.3 [#/L]", size("number", 0.3, null, "above", "#/L")],
    ["<1.0um", size("raw", null, 1, "below")],
    ["0.3-1.0", size("raw", 0.3, 1, "none")],
    ["0.3–0.5 µm [1/cm3]", size("number", 0.3, 0.5, "none", "1/cm3")],
    ["0.3um-1.0um", size("raw", 0.3, 1, "none")],
    ["n1 (1/cm3)", size("number", null, null, "none")],
    ["particle count", size("raw", null, null, "none")],
    ["US AQI", { role: "index" }],
    ["pm2.5_aqi", { role: "index" }],
    ["Air Quality", { role: "index" }],
    ["temp_C", { role: "ignored" }],
    ["Humidity (%)", { role: "ignored" }],
    ["CO2", { role: "ignored" }],
    ["typical", { role: "ignored" }],
    ["typical size (µm)", { role: "ignored" }],
    ["TVOC ppb", { role: "ignored" }],
    ["pressure", { role: "ignored" }],
    ["__proto__", { role: "unknown" }],
    ["time", { role: "time", unit: null }],
    ["time_s", { role: "time", unit: "s" }],
    ["Elapsed [min]", { role: "time", unit: "min" }],
    ["seconds", { role: "time", unit: "s" }],
    ["timestamp", { role: "time", unit: null }],
  ])("%s", (header, meaning) => expect(meaningOf(header, false)).toMatchObject(meaning));

  it("sizes in tenths, where the file shows it", () => {
    const { series } = readLog("time,pm10_env,pm25_env,pm100_env,particles_03um\n0,1,2,3,4\n1,1,2,3,4\n");
    expect(series.channels.map(({ fromUm, toUm }) => fromUm ?? toUm)).toEqual([1, 2.5, 10, 0.3]);
  });
});

describe("columns", () => {
  it("as stated: the submitter's word goes before the name", () => {
    const read = readLog("a,b,c\n0,1,5\n1,2,4\n", {
      t: { column: "a", unit: "min" },
      channels: [
        {
          column: "C",
          id: "n1",
          quantity: "number",
          unit: "1/L",
          fromUm: 0.3,
          toUm: 1,
          cumulative: "none",
          ceiling: 9000,
        },
      ],
    });
    expect([...read.series.tS]).toEqual([0, 60]);
    expect(read.series.channels).toEqual([
      {
        id: "n1",
        quantity: "number",
        unit: "1/cm3",
        fromUm: 0.3,
        toUm: 1,
        cumulative: "none",
        ceiling: 9,
        values: Float64Array.of(0.005, 0.004),
      },
    ]);
    expect(read.columns.map(({ role, guessed }) => [role, guessed])).toEqual([
      ["time", false],
      ["ignored", true],
      ["channel", false],
    ]);
  });

  it("half stated: the rest of a channel comes from its name", () => {
    const { series } = readLog("time,nPM1.0,rh\n0,5,40\n1,4,40\n", { channels: [{ column: "nPM1.0" }] });
    expect(series.channels[0]).toMatchObject({
      id: "nPM1.0",
      quantity: "number",
      unit: "1/cm3",
      fromUm: null,
      toUm: 1,
      cumulative: "below",
    });
  });

  it("a guessed column named like a band gets another id, and equal names stay apart", () => {
    const { series } = readLog("time,0.5-3.0,mass,PM2.5,PM2.5\n0,1,2,3,4\n1,1,2,3,4\n");
    expect(series.channels.map((channel) => channel.id)).toEqual(["ch-0.5-3.0", "ch-mass", "PM2.5", "PM2.5-2"]);
  });

  it("an index beside a concentration is ignored, unknown names too", () => {
    const { series, columns } = readLog("time,aqi,PM2.5,__proto__,constructor\n0,1,2,3,4\n1,1,2,3,4\n");
    expect(series.channels.map((channel) => channel.id)).toEqual(["PM2.5"]);
    expect(columns.map((column) => column.name)).toEqual(["time", "aqi", "PM2.5", "__proto__", "constructor"]);
  });

  it("unknown names are taken where there is nothing else", () => {
    const { series } = readLog("time,__proto__\n0,3\n1,2\n");
    expect(series.channels[0]).toMatchObject({ id: "__proto__", quantity: "raw" });
    expect([...series.channels[0]!.values]).toEqual([3, 2]);
  });

  it("cells without a number are missing", () => {
    const { series } = readLog("time,PM2.5\n0,5\n1,\n2,NaN\n3,1e400\n4,0x10\n5,4\n6\n7,3\n");
    expect([...series.channels[0]!.values]).toEqual([
      5,
      Number.NaN,
      Number.NaN,
      Number.NaN,
      Number.NaN,
      4,
      Number.NaN,
      3,
    ]);
  });
});
