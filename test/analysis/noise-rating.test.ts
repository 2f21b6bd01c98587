import { describe, expect, test } from "vitest";
import { meanNoise, type NoiseRating, type NoiseReading, rateNoise } from "../../analysis/noise-rating.ts";

const known = (value: number, u: number | null = null) => ({ value, u });
const READING: NoiseReading = {
  quantity: "L_pA",
  levelDb: known(52),
  backgroundDb: known(30),
  distanceM: known(1),
  meter: "class_2",
};
const rated = (changes: Partial<NoiseReading> = {}) => rateNoise({ ...READING, ...changes });
const levelOf = (rating: NoiseRating) => {
  if (rating.kind !== "level") throw new Error(rating.kind);
  return rating.level;
};

describe("one reading brought to 1 m", () => {
  test("far above the background at 1 m it is what was read", () => {
    const { value, u } = levelOf(rated());
    expect(value).toBe(52);
    // meter 2, room 2, and 5 cm of 1 m
    expect(u).toBeCloseTo(Math.hypot(2, 2, 8.686 * 0.05), 4);
  });

  test("from 2 m it gains 6.02 dB, and is less certain in a room", () => {
    const { value, u } = levelOf(rated({ distanceM: known(2) }));
    expect(value).toBeCloseTo(58.02, 2);
    expect(u).toBeGreaterThan(levelOf(rated()).u);
  });

  test("10 dB over the background it loses 0.458 dB", () => {
    expect(levelOf(rated({ backgroundDb: known(42) })).value).toBeCloseTo(52 - 0.458, 3);
  });

  test("the stated scatter of both readings counts by the slopes of K₁", () => {
    const left = 1 - 10 ** -0.6;
    const still = levelOf(rated({ backgroundDb: known(46, 0) })).u;
    expect(levelOf(rated({ levelDb: known(52, 1), backgroundDb: known(46, 0) })).u).toBeCloseTo(
      Math.hypot(still, 1 / left),
      10,
    );
    expect(levelOf(rated({ backgroundDb: known(46, 2) })).u).toBeCloseTo(Math.hypot(still, 2 * (1 / left - 1)), 10);
  });

  test("under 6 dB it is an upper bound 1.3 dB lower, with the interval's end; under 3 dB nothing", () => {
    const bound = rated({ backgroundDb: known(47) });
    if (bound.kind !== "upper-bound") throw new Error(bound.kind);
    expect(bound.highDb).toBeGreaterThan(50.7);
    expect(bound.highDb).toBeCloseTo(50.7 + 1.96 * Math.hypot(2, 2, 8.686 * 0.05), 3);
    expect(rated({ backgroundDb: known(49.5) })).toEqual({ kind: "not-rated", reason: "near-background" });
  });

  test("a pressure level without its distance cannot be brought anywhere; a slip of the pen is not rated", () => {
    expect(rated({ distanceM: null })).toEqual({ kind: "not-rated", reason: "no-distance" });
    for (const slip of [{ levelDb: known(1e300) }, { distanceM: known(1e-300) }, { levelDb: known(50, 1e308) }]) {
      expect(rated(slip)).toEqual({ kind: "not-rated", reason: "implausible" });
    }
  });

  test("a power level converts by the hemisphere", () => {
    const { value } = levelOf(
      rated({ quantity: "L_WA", distanceM: null, backgroundDb: null, meter: "stated_by_maker" }),
    );
    expect(value).toBeCloseTo(52 - 7.982, 3);
  });

  test("the better the meter the smaller u; a phone where it is quiet is worst; no background reading costs", () => {
    const u = (changes: Partial<NoiseReading>) => levelOf(rated(changes)).u;
    expect(u({ meter: "class_1" })).toBeLessThan(u({ meter: "class_2" }));
    expect(u({ meter: "class_2" })).toBeLessThan(u({ meter: "phone" }));
    expect(u({ meter: "phone" })).toBe(u({ meter: "unknown" }));
    expect(u({ meter: "phone" })).toBeLessThan(u({ meter: "phone", levelDb: known(44), backgroundDb: known(20) }));
    expect(u({ backgroundDb: null })).toBeGreaterThan(u({}));
    expect(u({ meter: "stated_by_maker", levelDb: known(52, 0.5) })).toBeLessThan(u({ meter: "stated_by_maker" }));
  });
});

test("levels count before bounds, the lowest bound before none", () => {
  const bound = rated({ backgroundDb: known(47) });
  const nothing = rated({ distanceM: null });
  expect(meanNoise([bound, rated(), nothing])).toMatchObject({ kind: "level", level: levelOf(rated()) });
  expect(meanNoise([bound, { kind: "upper-bound", highDb: 40, k1Db: 1.3 }])).toMatchObject({ highDb: 40 });
  expect(meanNoise([nothing])).toBeNull();
});
