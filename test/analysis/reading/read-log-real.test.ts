import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readLog } from "../../../analysis/reading/read-log.ts";

const folder = new URL("../../../../shared/real/", import.meta.url);
const here = existsSync(folder);
const logs = here ? readdirSync(folder).filter((name) => name.endsWith(".csv")) : [];

const MASS = (id: string, toUm: number) => ({
  id,
  quantity: "mass",
  unit: "ug/m3",
  fromUm: null,
  toUm,
  cumulative: "below",
});
const NUMBER = (id: string, toUm: number) => ({
  id,
  quantity: "number",
  unit: "1/cm3",
  fromUm: null,
  toUm,
  cumulative: "below",
});
const COUNTS = (id: string, fromUm: number) => ({
  id,
  quantity: "raw",
  unit: "1",
  fromUm,
  toUm: null,
  cumulative: "above",
});

/** What the description of the sensors says their columns are. */
const SENSORS: Record<string, object[]> = {
  "optical-a": [
    MASS("pm1.0", 1),
    MASS("pm2.5", 2.5),
    MASS("pm10", 10),
    ...[0.3, 0.5, 1, 2.5, 5, 10].map((size, i) => COUNTS([">0.3", ">0.5", ">1.0", ">2.5", ">5", ">10"][i]!, size)),
  ],
  "optical-b": [MASS("pm2.5", 2.5), MASS("pm10", 10)],
  "optical-c": [
    MASS("mPM1.0", 1),
    MASS("mPM2.5", 2.5),
    MASS("mPM4.0", 4),
    MASS("mPM10", 10),
    NUMBER("nPM0.5", 0.5),
    NUMBER("nPM1.0", 1),
    NUMBER("nPM2.5", 2.5),
    NUMBER("nPM4.0", 4),
    NUMBER("nPM10", 10),
  ],
  early: [MASS("pm1.0", 1), MASS("pm2.5", 2.5), MASS("pm10", 10)],
};

describe.skipIf(!here)("the real logs beside the project", () => {
  it("are sixteen", () => expect(logs.length).toBe(16));

  it.each(logs)("%s: columns guessed, every row kept, times after the first row", (name) => {
    const bytes = readFileSync(new URL(name, folder));
    const read = readLog(bytes);
    const lines = bytes.toString("utf8").trim().split("\r\n").slice(1);
    const sensor = Object.keys(SENSORS).find((key) => name.includes(key))!;
    const shown = read.series.channels.map(({ values: _, ceiling: __, ...channel }) => channel);
    expect(shown).toEqual(SENSORS[sensor]);
    expect(read.rows).toBe(lines.length);
    expect(read.dropped).toEqual([]);
    expect(read.startMs).toBeNull();
    expect(read.scale.unit).toBe("s");
    const last = lines.at(-1)!.split(",").map(Number);
    expect(read.series.tS[0]).toBe(0);
    expect(read.series.tS.at(-1)).toBe(last[0]! - Number(lines[0]!.split(",")[0]));
    expect(read.series.channels.map((channel) => channel.values.at(-1))).toEqual(last.slice(1, 1 + shown.length));
    expect(read.columns.slice(1 + shown.length).every((column) => column.role === "ignored")).toBe(true);
  });
});
