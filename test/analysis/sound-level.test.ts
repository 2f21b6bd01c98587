import { describe, expect, test } from "vitest";
import { A_WEIGHTING_DB, aWeightedLevelDb } from "../../analysis/a-weighting.ts";
import { backgroundNoiseCorrection, k1Db } from "../../analysis/background-noise-correction.ts";
import {
  hemisphereDb,
  levelAtDistanceDb,
  levelOfUnitsDb,
  meanLevel,
  sumOfLevelsDb,
} from "../../analysis/sound-level.ts";

describe("K₁ (ISO 3744, from memory; figures computed from its formula)", () => {
  test.each([
    [3, 3.021],
    [6, 1.256],
    [10, 0.458],
    [15, 0.14],
  ])("is at a difference of %d dB %f dB", (difference, expected) => {
    expect(k1Db(difference)).toBeCloseTo(expected, 3);
    const correction = backgroundNoiseCorrection(difference);
    if (difference >= 6) expect(correction).toMatchObject({ kind: "corrected", k1Db: k1Db(difference) });
  });

  test("is nothing over 15 dB, capped as a bound under 6 dB, and no figure under 3 dB", () => {
    expect(backgroundNoiseCorrection(15.01)).toEqual({ kind: "corrected", k1Db: 0, sensitivity: 1 });
    expect(backgroundNoiseCorrection(5.99)).toMatchObject({ kind: "upper-bound", k1Db: 1.3 });
    expect(backgroundNoiseCorrection(3)).toMatchObject({ kind: "upper-bound", k1Db: 1.3 });
    expect(backgroundNoiseCorrection(2.99)).toEqual({ kind: "not-rated" });
    expect(backgroundNoiseCorrection(-4)).toEqual({ kind: "not-rated" });
    expect(backgroundNoiseCorrection(Number.NaN)).toEqual({ kind: "not-rated" });
  });

  test("a difference of decimals counts as what it is written as: 64.1 − 58.1 is 6", () => {
    expect(64.1 - 58.1).not.toBe(6);
    expect(backgroundNoiseCorrection(64.1 - 58.1).kind).toBe("corrected");
  });

  test("takes off exactly what the background adds, and its sensitivity is its slope", () => {
    for (const difference of [6, 8, 12]) {
      const correction = backgroundNoiseCorrection(difference);
      if (correction.kind !== "corrected") throw new Error(correction.kind);
      expect(sumOfLevelsDb([40 + difference - correction.k1Db, 40])).toBeCloseTo(40 + difference, 12);
      const further = backgroundNoiseCorrection(difference + 1e-3);
      const slope = 1 - ("k1Db" in further ? further.k1Db - correction.k1Db : Number.NaN) / 1e-3;
      expect(correction.sensitivity).toBeCloseTo(slope, 3);
    }
  });
});

describe("levels", () => {
  test("add as energies (computed)", () => {
    expect(sumOfLevelsDb([50, 50])).toBeCloseTo(53.01, 3);
    expect(sumOfLevelsDb([60, 57])).toBeCloseTo(61.764, 3);
    expect(sumOfLevelsDb([60])).toBe(60);
    expect(sumOfLevelsDb([5000, 5000])).toBeCloseTo(5003.01, 2);
  });

  test("of n equal units are n of them added up", () => {
    for (const n of [1, 2, 5, 9]) expect(levelOfUnitsDb(44, n)).toBeCloseTo(sumOfLevelsDb(new Array(n).fill(44)), 10);
  });

  test("fall by 6.02 dB per doubling in a free field; a hemisphere at 1 m makes 7.982 dB (computed)", () => {
    expect(levelAtDistanceDb(50, 1)).toBe(50);
    expect(levelAtDistanceDb(50, 2)).toBeCloseTo(43.98, 2);
    expect(levelAtDistanceDb(50, 4) - levelAtDistanceDb(50, 2)).toBeCloseTo(-6.02, 2);
    expect(hemisphereDb()).toBeCloseTo(7.982, 3);
    expect(hemisphereDb(2) - hemisphereDb(1)).toBeCloseTo(6.02, 2);
  });

  test("octave bands A-weighted (IEC 61672-1; the sum computed)", () => {
    const levels = [63, 52, 45, 38, 31, 24, 16, 10];
    const octaves = [...A_WEIGHTING_DB.keys()].map((hz, i) => ({ hz, levelDb: levels[i]! }));
    expect(aWeightedLevelDb(octaves)).toBeCloseTo(42.48, 2);
    expect(() => aWeightedLevelDb([{ hz: 60, levelDb: 40 }])).toThrow(RangeError);
    expect(() => aWeightedLevelDb([])).toThrow(RangeError);
  });

  test("the table is the curve of IEC 61672-1 (its poles from memory) at the exact middles 1000·10^(0.3n), to 0.1 dB", () => {
    const gain = (f: number) =>
      (12194 ** 2 * f ** 4) /
      ((f ** 2 + 20.6 ** 2) * Math.sqrt((f ** 2 + 107.7 ** 2) * (f ** 2 + 737.9 ** 2)) * (f ** 2 + 12194 ** 2));
    [...A_WEIGHTING_DB.values()].forEach((weight, i) => {
      expect(Math.abs(20 * Math.log10(gain(1000 * 10 ** (0.3 * (i - 4))) / gain(1000)) - weight)).toBeLessThan(0.1);
    });
  });
});

describe("the mean of several readings", () => {
  const level = (value: number, u = 2) => ({ value, u, dof: Infinity });

  test("is one of energies: 50 and 60 make 57.404, not 55 (computed)", () => {
    expect(meanLevel([level(50), level(60)]).value).toBeCloseTo(10 * Math.log10((1e5 + 1e6) / 2), 10);
    expect(meanLevel([level(50), level(60)]).value).toBeCloseTo(57.404, 3);
  });

  test("equal readings stay as uncertain as one: the meter's error is in each of them", () => {
    const { value, u, dof } = meanLevel([level(48), level(48), level(48)]);
    expect(value).toBeCloseTo(48, 12);
    expect(u).toBeCloseTo(2, 12);
    expect(dof).toBe(Infinity);
  });

  test("readings that scatter are more uncertain, by s/√n (GUM 4.2.3)", () => {
    const { u, dof } = meanLevel([level(47.9), level(48), level(48.1)]);
    expect(Math.sqrt(u ** 2 - 4)).toBeCloseTo(0.1 / Math.sqrt(3), 3); // so near each other decibels are as good as energies
    expect(dof).toBeGreaterThan(1000);
  });
});
