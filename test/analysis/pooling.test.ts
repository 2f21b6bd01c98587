import { describe, expect, test } from "vitest";
import { inverseVarianceMean, poolCadr } from "../../analysis/pooling.ts";
import { givenVolume, rectangularVolume } from "../../analysis/room-volume.ts";

/** BCG trials (Colditz et al. 1994, dat.bcg of the R package metadat): cases and others, vaccinated and not. */
const BCG = [
  [4, 119, 11, 128],
  [6, 300, 29, 274],
  [3, 228, 11, 209],
  [62, 13536, 248, 12619],
  [33, 5036, 47, 5761],
  [180, 1361, 372, 1079],
  [8, 2537, 10, 619],
  [505, 87886, 499, 87892],
  [29, 7470, 45, 7232],
  [17, 1699, 65, 1600],
  [186, 50448, 141, 27197],
  [5, 2493, 3, 2338],
  [27, 16886, 29, 17825],
] as const;

describe("inverse-variance mean", () => {
  const bcg = BCG.map(([a, b, c, d]) => {
    const [vaccinated, not] = [a + b, c + d];
    const value = Math.log(a / vaccinated / (c / not)); // log risk ratio
    return { value, u: Math.sqrt(1 / a - 1 / vaccinated + 1 / c - 1 / not), dof: Infinity };
  });

  test("of the BCG trials is metafor's fixed-effect estimate, widened by its Birge ratio", () => {
    const { value, u, dof } = inverseVarianceMean(bcg);
    expect(value).toBeCloseTo(-0.430285, 6); // metafor 3.8, method EE
    expect(u).toBeCloseTo(0.040499 * 3.56175, 5); // R_B = √(Q/(k−1)), Q 152.23
    expect(dof).toBe(12);
  });

  test("is never narrowed where the members agree by luck", () => {
    const same = [5, 5, 5, 5].map((value) => ({ value, u: 0.2, dof: 30 }));
    expect(inverseVarianceMean(same).u).toBeCloseTo(0.1, 12);
    expect(inverseVarianceMean(same).dof).toBeCloseTo(120, 9);
  });

  test("of one is itself, of none is refused", () => {
    const one = { value: 3, u: 0.1, dof: 7 };
    expect(inverseVarianceMean([one])).toBe(one);
    expect(() => inverseVarianceMean([])).toThrow(RangeError);
  });
});

describe("pooled CADR", () => {
  const k = (value: number, u = 0.1) => ({ value, u, dof: Infinity });
  const volume = { value: 30, u: 0.6, dof: Infinity };

  test("of trials in one room keeps that room's whole volume error", () => {
    const members = [8, 8, 8, 8].map((value) => ({ room: "a", kDifferencePerH: k(value), volumeM3: volume }));
    const { value, u } = poolCadr(members);
    expect(value).toBeCloseTo(240, 9);
    expect(u).toBeCloseTo(Math.hypot(30 * 0.05, 8 * 0.6), 9); // dense algebra: the volume term does not average out
  });

  test("over rooms the volume errors do average out", () => {
    const members = ["a", "b", "c", "d"].map((room) => ({ room, kDifferencePerH: k(8), volumeM3: volume }));
    expect(poolCadr(members).u).toBeCloseTo(Math.hypot(30 * 0.1, 8 * 0.6) / 2, 9);
  });

  test("does not depend on the order of its members", () => {
    const members = [7.1, 8.4, 9.3, 6.6].map((value, i) => ({
      room: "ab"[i % 2]!,
      kDifferencePerH: k(value, 0.1 + i / 20),
      volumeM3: volume,
    }));
    expect(poolCadr(members.toReversed()).value).toBeCloseTo(poolCadr(members).value, 12);
  });
});

describe("a room's volume", () => {
  const side = (value: number, u: number | null = null) => ({ value, u });

  test("from three sides taped by hand is known to 2 %", () => {
    const { volumeM3, basis } = rectangularVolume([side(4), side(3), side(2.5)], null);
    expect(volumeM3.value).toBe(30);
    expect(volumeM3.u / volumeM3.value).toBeCloseTo(0.02, 12);
    expect(basis).toBe("measured_sides");
  });

  test("with stated sides follows JCGM 100 eq. 10 for a product", () => {
    const { volumeM3, basis } = rectangularVolume([side(4, 0.02), side(3, 0.03), side(2.5, 0.01)], side(1, 0.1));
    expect(volumeM3.value).toBe(29);
    expect(volumeM3.u).toBeCloseTo(Math.hypot(30 * 0.005, 30 * 0.01, 30 * 0.004, 0.1), 12);
    expect(basis).toBe("stated");
  });

  test("given without u is an estimate, good to 5 %", () => {
    expect(givenVolume(side(30))).toEqual({ volumeM3: { value: 30, u: 1.5, dof: Infinity }, basis: "estimate" });
    expect(givenVolume(side(30, 0.6)).basis).toBe("stated");
  });
});
