import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { isSameScatter, scatterWindows } from "../../../analysis/doubt/same-scatter.ts";
import { readLog } from "../../../analysis/reading/read-log.ts";
import { sampleLog } from "../../support/sample-trial.ts";

const values = (seed: number) => sampleLog(seed).series.channels[0]!.values;
const log = values(1);

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
    expect(isSameScatter(log, disguises[name]!)).toBe(true);
  });
});

test("of logs cut to their middle half most are found: 27 of 32 channels of real ones were", () => {
  const found = Array.from({ length: 60 }, (_, i) => values(9000 + i)).filter((one) =>
    isSameScatter(one, one.slice(Math.floor(0.25 * one.length), Math.floor(0.75 * one.length))),
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
        expect(isSameScatter(logs[other]!, one)).toBe(false);
      }
      seen.set(hash, i);
    }
  });
  expect(candidates).toBeLessThan(3);
});

test("a smooth curve has no windows, and so is never doubted", () => {
  expect(scatterWindows(Float64Array.from({ length: 500 }, (_, i) => 900 * Math.exp(-0.01 * i)))).toEqual([]);
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
        for (const a of one) for (const b of other) expect(isSameScatter(a.values, b.values)).toBe(false);
      }
      for (const { values } of one) {
        const scaled = values.map((y) => 1.3 * y);
        if (scatterWindows(values).length > 0) expect(isSameScatter(values, scaled)).toBe(true);
      }
    });
  });
});
