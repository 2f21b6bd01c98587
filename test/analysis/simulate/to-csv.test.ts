import { describe, expect, it } from "vitest";
import { readLog } from "../../../analysis/reading/read-log.ts";
import { simulateLog } from "../../../analysis/simulate/simulate-log.ts";
import { DRESSES, toCsv } from "../../../analysis/simulate/to-csv.ts";
import { NOISY } from "./scenario-example.ts";

const { series } = simulateLog({
  ...NOISY,
  counter: {
    ...NOISY.counter,
    channels: [
      { id: "0.3-1.0 (1/cm3)", quantity: "number", unit: "1/cm3", fromUm: 0.3, toUm: 1, cumulative: "none" },
      { id: "PM1.0", quantity: "mass", unit: "ug/m3", fromUm: null, toUm: 1, cumulative: "below" },
    ],
  },
});

describe("a simulated log comes back from its file", () => {
  it.each([
    ["comma", DRESSES.comma],
    ["semicolon", DRESSES.semicolon],
    ["stamped", DRESSES.stamped],
    ["tab", { ...DRESSES.comma, delimiter: "\t" }],
    ["newest first", { ...DRESSES.semicolon, newestFirst: true }],
    ["stamped, newest first", { ...DRESSES.stamped, newestFirst: true }],
  ] as const)("%s", (_, dress) => {
    const read = readLog(toCsv(series, dress));
    expect(read.series).toEqual({
      ...series,
      channels: series.channels.map((channel) => ({ ...channel, ceiling: null })),
    });
    expect(read.startMs).toBe(dress.startMs);
  });

  it("looks as it should", () => {
    const head = toCsv(series, DRESSES.semicolon).split("\r\n").slice(0, 2);
    expect(head[0]).toBe("\uFEFFtime_s;0.3-1.0 (1/cm3);PM1.0");
    expect(head[1]).toMatch(/^0;\d+(,\d)?;\d+(,\d)?$/);
  });
});
