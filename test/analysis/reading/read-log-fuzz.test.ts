import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LogRead, readLog } from "../../../analysis/reading/read-log.ts";
import { ReadingError } from "../../../analysis/reading/reading-error.ts";

const SOUND = [
  "time,pm1.0,pm2.5,>0.3\n0.9,1,2,108\n1.8,1,2,96\n2.7,0,1,90\n3.6,0,1,84\n4.5,0,0,84\n",
  "# log\r\nZeit;PM2.5 (µg/m³);Feuchte\r\n04.03.2026 23:59:50;1.234,5;40\r\n05.03.2026 00:00:00;800,25;41\r\n05.03.2026 00:00:10;400,0;41\r\n",
  'Serial,77\n"Date","Time","0.3-1.0 [#/L]"\n2026-03-04,10:00:00 PM,"1,234"\n2026-03-04,10:00:10 PM,"1,100"\n2026-03-04,10:00:20 PM,900\n',
  "0\t5\t6\n10\t4\t5\n20\t3\t4\n30\t2\t3\n",
];
const SPICE = [
  ",",
  ";",
  "\t",
  "\n",
  "\r",
  '"',
  "#",
  "//",
  "NaN",
  "-",
  "1e400",
  "-1e308",
  "1e308",
  "99:99:99",
  "03/04/2026",
  "\uFEFF",
  "µ",
  "0x10",
  "__proto__",
  "aqi",
  "time",
  "😀",
  "\uD800",
  " ",
];

const splice = fc.record({
  at: fc.nat(400),
  cut: fc.nat(12),
  put: fc.oneof(fc.constantFrom(...SPICE), fc.string({ maxLength: 6 })),
});
const mutated = fc.tuple(fc.constantFrom(...SOUND), fc.array(splice, { maxLength: 8 })).map(([text, splices]) =>
  splices.reduce((now, { at, cut, put }) => {
    const i = at % (now.length + 1);
    return now.slice(0, i) + put + now.slice(i + cut);
  }, text),
);
const cell = fc.oneof(fc.constantFrom(...SPICE), fc.double().map(String), fc.integer().map(String), fc.constant(""));
const table = fc
  .tuple(fc.constantFrom(",", ";", "\t"), fc.array(fc.array(cell, { minLength: 1, maxLength: 5 }), { maxLength: 12 }))
  .map(([delimiter, rows]) => rows.map((row) => row.join(delimiter)).join("\n"));

function readOrRefuse(source: string | Uint8Array): LogRead | null {
  try {
    return readLog(source);
  } catch (error) {
    expect(error).toBeInstanceOf(ReadingError);
    return null;
  }
}

function expectWhole(read: LogRead | null): void {
  if (!read) return;
  const { tS, channels } = read.series;
  expect(read.rows).toBe(tS.length);
  expect(tS.every(Number.isFinite)).toBe(true);
  expect(new Set(tS).size).toBeGreaterThan(tS.length > 1 ? 1 : 0);
  expect(channels.length).toBeGreaterThan(0);
  expect(new Set(channels.map((channel) => channel.id)).size).toBe(channels.length);
  for (const { values } of channels) {
    expect(values.length).toBe(tS.length);
    expect(values.some(Number.isFinite)).toBe(true);
    expect(values.every((value) => Number.isNaN(value) || Number.isFinite(value))).toBe(true);
  }
}

describe("damaged logs are read whole or refused by type", () => {
  it("mutated text", () => {
    let read = 0;
    fc.assert(
      fc.property(mutated, (text) => {
        const log = readOrRefuse(text);
        if (log) read++;
        expectWhole(log);
      }),
      { seed: 20260304, numRuns: 1500 },
    );
    expect(read).toBeGreaterThan(300); // else the mutations only test the refusals
  });

  it("tables of anything", () => {
    fc.assert(
      fc.property(table, (text) => expectWhole(readOrRefuse(text))),
      { seed: 7, numRuns: 1000 },
    );
  });

  it("flipped bytes", () => {
    const bytes = fc
      .tuple(fc.constantFrom(...SOUND), fc.array(fc.tuple(fc.nat(400), fc.nat(255)), { maxLength: 4 }))
      .map(([text, flips]) => {
        const out = new TextEncoder().encode(text);
        for (const [at, value] of flips) out[at % out.length] = value;
        return out;
      });
    fc.assert(
      fc.property(bytes, (source) => expectWhole(readOrRefuse(source))),
      { seed: 11, numRuns: 500 },
    );
  });
});

describe("large logs", () => {
  const rows = (line: (i: number) => string, count: number) =>
    Array.from({ length: count }, (_, i) => line(i)).join("\n");

  it.each([
    [
      "seconds",
      `time,a1,PM1,PM2.5,PM10\n${rows((i) => `${i / 2},7,${1e4 / (i + 1)},${2e4 / (i + 1)},${3e4 / (i + 1)}`, 50_000)}`,
    ],
    ["stamps", `time,PM2.5\n${rows((i) => `${new Date(1.79e12 + 1000 * i).toISOString()},${1e4 / (i + 1)}`, 100_000)}`],
  ])("200 000 values with %s", (_, text) => {
    const began = performance.now();
    const read = readLog(text);
    expect(read.rows * (1 + read.series.channels.length)).toBe(200_000);
    expect(performance.now() - began).toBeLessThan(1500); // a third to a fifth of it alone on the machine
  });
});
