import { describe, expect, test } from "vitest";
import { ceilingMask } from "../../analysis/ceiling.ts";
import { cleanChannel } from "../../analysis/clean-channel.ts";
import { cleanRows } from "../../analysis/clean-rows.ts";
import { counterStep } from "../../analysis/counter-step.ts";
import { asCounted, decay, everyS, QUIET, seededNoise } from "./simulated-decay.ts";

const rowsOf = (times: number[], cropFromS: number | null = null, cropToS: number | null = null) => {
  const { rows, dropped } = cleanRows({ tS: Float64Array.from(times), channels: [], cropFromS, cropToS });
  return { rows, dropped: Object.fromEntries(dropped) };
};

describe("rows", () => {
  test("a stamp that cannot be read, one sent twice and one that jumps back are left out and counted", () => {
    expect(rowsOf([0, 1, Number.NaN, 2, 2, 3, 1.5, 4, 5])).toEqual({
      rows: [0, 1, 4, 5, 7, 8],
      dropped: { "no-time": 1, "repeated-time": 1, "backward-time": 1 },
    });
  });

  test("one stamp far ahead does not throw the rest away", () => {
    expect(rowsOf([0, 1, 900, 2, 3, 4]).rows).toEqual([0, 1, 3, 4, 5]);
  });

  test("a log sent newest first is turned round", () => {
    expect(rowsOf([4, 3, 2, 1, 0]).rows).toEqual([4, 3, 2, 1, 0]);
  });

  test("rows that came late all at once after a gap leave the freshest", () => {
    expect(rowsOf([0, 1, 2, 9, 9.001, 9.002, 9.003, 10, 11])).toEqual({
      rows: [0, 1, 2, 6, 7, 8],
      dropped: { backlog: 3 },
    });
  });

  test("rows outside the crop are not used", () => {
    expect(rowsOf([0, 1, 2, 3, 4], 1, 3).rows).toEqual([1, 2, 3]);
  });
});

describe("the counter's step", () => {
  test("0.1 steps, whole counts, counts in twelves, a few odd values, and none at all", () => {
    const noise = seededNoise(1);
    const values = Array.from({ length: 400 }, () => 100 * noise.uniform());
    expect(counterStep(values.map((v) => Math.round(10 * v) / 10))).toBeCloseTo(0.1, 9);
    expect(counterStep(values.map(Math.round))).toBe(1);
    expect(counterStep(values.map((v) => 12 * Math.round(v)))).toBe(12);
    expect(counterStep(values.map((v, i) => (i % 12 === 0 ? v : Math.round(v))))).toBe(1);
    expect(counterStep(values)).toBe(0);
    expect(counterStep([Number.NaN, 0, 0])).toBe(0);
  });
});

describe("ceilings", () => {
  const mask = (values: number[], ceiling: number | null = null, step = 1) => [
    ...ceilingMask({ values: Float64Array.from(values), ceiling }, step),
  ];
  test("a flat top of four above thirty steps, not one of three, not one at the floor", () => {
    expect(mask([100, 120, 130, 130, 130, 130, 120])).toEqual([0, 0, 1, 1, 1, 1, 0]);
    expect(mask([100, 120, 130, 130, 130, 120])).toEqual([0, 0, 0, 0, 0, 0]);
    expect(mask([5, 9, 9, 9, 9, 7])).toEqual([0, 0, 0, 0, 0, 0]);
  });
  test("a 16-bit register, a four-digit display, a stated ceiling", () => {
    expect(mask([65000, 65535, 65535, 64000])).toEqual([0, 1, 1, 0]);
    expect(mask([900, 999.9, 950, 999.9], null, 0.1)).toEqual([0, 1, 0, 1]);
    expect(mask([400, 520, 490], 500)).toEqual([0, 1, 0]);
  });
  test("a counter that holds each reading for five rows has no flat top of five", () => {
    const held = [100, 200, 260, 240, 220, 180, 150].flatMap((v) => Array<number>(5).fill(v));
    expect(mask(held)).not.toContain(1);
  });
});

describe("one channel", () => {
  const tS = everyS(2, 1200);
  const column = (values: Float64Array) => ({
    tS: tS.slice(0, values.length),
    values,
    clipped: new Uint8Array(values.length),
    quantity: "mass" as const,
  });
  const decaying = () => asCounted(tS, decay(900, 6, 5), { ...QUIET, white: 0.01 }, seededNoise(3));
  const droppedOf = (values: Float64Array) => Object.fromEntries(cleanChannel(column(values)).dropped);

  test("a clean decay loses next to nothing, blanks are counted, spikes and start-up rows go", () => {
    const clean = cleanChannel(column(decaying()));
    expect(clean.readings.tS.length).toBeGreaterThan(0.94 * tS.length);
    expect(clean.readings.stepQ).toBeCloseTo(0.1, 9);
    const spoilt = decaying();
    spoilt[0] = 100;
    spoilt[50] = 2 * spoilt[50]!;
    spoilt[300] = 0.5 * spoilt[300]!;
    spoilt[100] = Number.NaN;
    const { readings, dropped } = cleanChannel(column(spoilt));
    expect(dropped.get("missing")).toBe(1);
    expect(dropped.get("start-up")).toBe(1);
    for (const row of [0, 50, 100, 300]) expect([...readings.tS]).not.toContain(tS[row]);
  });

  test("a held reading becomes one point above twenty steps and stays as it is at the floor", () => {
    const each = decaying().filter((_, i) => i % 5 === 0);
    const held = Float64Array.from(tS, (_, i) => each[Math.floor(i / 5)]!);
    const { readings, dropped } = cleanChannel(column(held));
    expect(dropped.get("held")).toBeGreaterThan(0.7 * tS.length);
    expect(readings.intervalS).toBe(10);
    const floor = Float64Array.from(tS, (_, i) => Math.round(8 - i / 100));
    expect(droppedOf(floor).held).toBeUndefined();
  });

  test("a quiet counter that honestly shows one value twice keeps both", () => {
    expect(droppedOf(Float64Array.from(tS, (_, i) => Math.round(500 - i / 4))).held).toBeUndefined();
  });
});
