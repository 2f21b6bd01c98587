import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { isSameScatter, scatterOf, scatterWindows } from "../../../analysis/doubt/same-scatter.ts";
import { readLog } from "../../../analysis/reading/read-log.ts";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { sampleLog } from "../../support/sample-trial.ts";

const values = (seed: number) => sampleLog(seed).series.channels[0]!.values;
const log = values(1);
const isSame = (a: Float64Array, b: Float64Array) => isSameScatter(scatterOf(a), scatterOf(b));

describe("one log in disguise is found", () => {
  const disguises: Record<string, Float64Array> = {
    scaled: log.map((y) => 1.7 * y),
    "scaled and rounded": log.map((y) => Math.round(17 * y) / 10),
    shifted: log.map((y) => y + 12.5),
    "cut at both ends": log.slice(17, -40),
    "scaled, shifted and cut": log.slice(30).map((y) => 0.6 * y + 3),
    "with readings left out": log.map((y, i) => (i % 97 === 50 ? Number.NaN : y)),
  };
  test.each(Object.keys(disguises))("%s", (name) => {
    expect(isSame(log, disguises[name]!)).toBe(true);
  });
});

test("of logs cut to their middle half most are found: 27 of 32 channels of real ones were", () => {
  const found = Array.from({ length: 60 }, (_, i) => values(9000 + i)).filter((one) =>
    isSame(one, one.slice(Math.floor(0.25 * one.length), Math.floor(0.75 * one.length))),
  );
  expect(found.length).toBeGreaterThanOrEqual(45); // 51; with two windows of each channel instead of four, 41
});

test("of 200 logs of one scenario no two are taken for one", () => {
  const logs = Array.from({ length: 200 }, (_, i) => values(5000 + i));
  const seen = new Map<number, number>();
  let candidates = 0;
  logs.forEach((one, i) => {
    for (const { hash } of scatterWindows(one)) {
      const other = seen.get(hash);
      if (other !== undefined) {
        candidates++;
        expect(isSame(logs[other]!, one)).toBe(false);
      }
      seen.set(hash, i);
    }
  });
  expect(candidates).toBeLessThan(3);
});

test("a smooth curve has no windows, and so is never doubted", () => {
  expect(scatterWindows(Float64Array.from({ length: 500 }, (_, i) => 900 * Math.exp(-0.01 * i)))).toEqual([]);
});

describe("what many honest logs have in common tells none of them from another", () => {
  const random = createRandom(77);
  type Kind = (rate: number, start: number) => Float64Array;
  const decay = (rate: number, start: number, hours: number) => start * Math.exp(-rate * hours);
  const kinds: Record<string, Kind> = {
    "a counter that measures each 5 s, read each second, hardly any noise": (rate, start) => {
      let held = 0;
      return Float64Array.from({ length: 1500 }, (_, i) => {
        if (i % 5 === 0) held = decay(rate, start, i / 3600) * (1 + 0.0002 * random.normal());
        return Math.round(held * 10) / 10;
      });
    },
    "the same with noise": (rate, start) => {
      let held = 0;
      return Float64Array.from({ length: 1500 }, (_, i) => {
        if (i % 5 === 0) held = decay(rate, start, i / 3600) * (1 + 0.01 * random.normal());
        return held;
      });
    },
    "two counters read in turn": (rate, start) =>
      Float64Array.from({ length: 600 }, (_, i) => (i % 2 ? 1 : 1.2) * decay(rate, start, i / 600)),
    "a reading of 0 each eighth time": (rate, start) =>
      Float64Array.from({ length: 600 }, (_, i) => (i % 8 === 0 ? 0 : decay(rate, start, i / 600))),
    "whole µg/m³ of a sensor that smooths": (rate, start) => {
      let smoothed = start;
      return Float64Array.from({ length: 1500 }, (_, i) => {
        smoothed += 0.1 * (decay(rate, start, i / 3600) * (1 + 0.01 * random.normal()) - smoothed);
        return Math.round(smoothed / 4);
      });
    },
  };
  test.each(Object.keys(kinds))("%s", (name) => {
    const logs = Array.from({ length: 40 }, (_, i) => scatterOf(kinds[name]!(5 + 0.2 * i, 900 + 7 * i)));
    let shared = 0;
    logs.forEach((one, i) => {
      for (const other of logs.slice(0, i)) {
        if (one.windows.some(({ hash }) => other.windows.some((its) => its.hash === hash))) shared++;
        expect(isSameScatter(one, other)).toBe(false);
      }
    });
    expect(shared).toBeLessThan(16); // of 780 pairs: whoever copies must not hide behind ten that are alike by chance
  });

  test("a log that is read more often than it is measured is found scaled", () => {
    const held = kinds["the same with noise"]!(6, 900);
    expect(
      isSame(
        held,
        held.slice(200).map((y) => 1.3 * y + 2),
      ),
    ).toBe(true);
  });
});

const real = join(import.meta.dirname, "../../../../shared/real");
describe.skipIf(!existsSync(real))("real logs, two counters on one run among them", () => {
  test("no two are taken for one", () => {
    const logs = readdirSync(real)
      .filter((name) => name.endsWith(".csv"))
      .map((name) => readLog(readFileSync(join(real, name))).series.channels);
    expect(logs.length).toBeGreaterThan(10);
    logs.forEach((one, i) => {
      for (const other of logs.slice(0, i)) {
        for (const a of one) for (const b of other) expect(isSame(a.values, b.values)).toBe(false);
      }
      for (const { values } of one) {
        const scaled = values.map((y) => 1.3 * y);
        if (scatterWindows(values).length > 0) expect(isSame(values, scaled)).toBe(true);
      }
    });
  });
});
