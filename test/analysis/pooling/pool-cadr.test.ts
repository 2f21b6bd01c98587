import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ASSUMED_SPREAD } from "../../../analysis/expected-elsewhere.ts";
import type { Member } from "../../../analysis/pooling/member.ts";
import { poolCadr } from "../../../analysis/pooling/pool-cadr.ts";
import { randomEffects } from "../../../analysis/pooling/random-effects.ts";
import { createRandom } from "../../../analysis/simulate/random.ts";
import bcg from "../../fixtures/meta-analysis.fixture.json" with { type: "json" };
import { membersOf, NO_SPREAD } from "./members.ts";

const exact = { value: 1, u: 0, dof: Infinity };

describe("pooled clean air delivery rate", () => {
  test("of one trial: u² + τ², t at d₀; for the next laboratory u² + 2τ²", () => {
    const pooled = poolCadr(membersOf({ k: 8 }), ASSUMED_SPREAD);
    const own = Math.hypot(30 * 0.1, 8 * 0.6);
    expect(pooled.value).toBe(240);
    expect(pooled.u).toBeCloseTo(Math.hypot(own, 0.13 * 240), 9);
    expect(pooled.dof).toBe(8);
    expect(pooled.prediction.u).toBeCloseTo(Math.hypot(own, 0.13 * 240, 0.13 * 240), 9);
    expect(pooled).toMatchObject({ trials: 1, rooms: 1, submitters: 1, i2: null, q: null, leftOutChangeM3PerH: null });
    expect(pooled.tau).toBeCloseTo(0.13, 12);
  });

  test("of two laboratories: τ² = (d₀s² + τ̂²)/(d₀ + 1), by hand", () => {
    // 200 and 260, u 5 each: τ̂² = 60²/2 − 25 = 1775; (8·(0.13·230)² + 1775)/9 = 991.9
    const pooled = poolCadr(
      membersOf({ k: 200, u: 5, volumeM3: exact }, { k: 260, u: 5, volumeM3: exact }),
      ASSUMED_SPREAD,
    );
    const tau2 = (8 * (0.13 * 230) ** 2 + 1775) / 9;
    expect(pooled.value).toBeCloseTo(230, 9);
    expect(pooled.u).toBeCloseTo(Math.sqrt((25 + tau2) / 2), 9);
    expect(pooled.tau).toBeCloseTo(Math.sqrt(tau2) / 230, 9);
    expect(pooled.dof).toBe(9);
    expect(pooled.q).toBeCloseTo(2 * (30 / 5) ** 2, 9);
    expect(pooled.i2).toBeCloseTo(1775 / 1800, 9);
    expect(Math.abs(pooled.leftOutChangeM3PerH!)).toBeCloseTo(30, 9);
    expect(pooled.prediction.u).toBeCloseTo(Math.sqrt((25 + tau2) / 2 + tau2), 9);
  });

  test("of thirteen is metafor's REML with Knapp and Hartung, guarded", () => {
    const { y, v, results } = bcg.cases[0]!;
    const members = membersOf(...y.map((k, i) => ({ k, u: Math.sqrt(v[i]!), volumeM3: exact })));
    const pooled = poolCadr(members, ASSUMED_SPREAD);
    expect(pooled.value).toBeCloseTo(results.REML.estimate, 8);
    expect(pooled.u).toBeCloseTo(results.REML.adHoc[0]!, 8);
    expect(pooled.dof).toBe(12);
    expect(pooled.tau! * Math.abs(pooled.value)).toBeCloseTo(Math.sqrt(results.REML.tau2), 8);
    expect(pooled.q).toBeCloseTo(results.REML.Q, 7);
    expect(pooled.i2).toBeCloseTo(results.REML.I2, 8);
  });

  test("several rooms of one submitter are one laboratory", () => {
    const pooled = poolCadr(membersOf(...Array(4).fill({ k: 8, submitter: "s" })), ASSUMED_SPREAD);
    expect(pooled).toMatchObject({ trials: 4, rooms: 4, submitters: 1, q: null });
    expect(pooled.u).toBeGreaterThan(0.13 * 240); // the submitter's place in the spread does not average out
    expect(pooled.u).toBeCloseTo(Math.hypot(Math.hypot(3, 4.8) / 2, 0.13 * 240), 9);
  });

  test("trials in one room keep its volume's error, and agreement by luck never narrows", () => {
    const room = { k: 8, room: "r" };
    expect(poolCadr(membersOf(room, room, room, room), NO_SPREAD).u).toBeCloseTo(Math.hypot(1.5, 4.8), 6);
    const differing = poolCadr(membersOf({ ...room, k: 7.6 }, { ...room, k: 8.4 }), NO_SPREAD);
    expect(differing.laboratories[0]!.rooms[0]!.kDifferencePerH.u).toBeCloseTo(0.4, 9); // Birge: √(Q/1) = 5.657 on 0.0707
  });

  test("does not hang on order, unit of volume, or names", () => {
    const members = membersOf({ k: 7, room: "a" }, { k: 9, room: "b" }, { k: 8.3, room: "a" }, { k: 6.6, room: "c" });
    const { value, u } = poolCadr(members, ASSUMED_SPREAD);
    expect(poolCadr(members.toReversed(), ASSUMED_SPREAD)).toEqual(poolCadr(members, ASSUMED_SPREAD));
    const inLitres = members.map((m) => ({ ...m, volumeM3: { value: 3e4, u: 600, dof: Infinity } }));
    const scaled = poolCadr(inLitres, ASSUMED_SPREAD);
    expect(scaled.value / value).toBeCloseTo(1000, 6);
    expect(scaled.u / u).toBeCloseTo(1000, 6);
  });

  test("nothing is refused; what is about 0 or below stays unclipped and finite", () => {
    expect(() => poolCadr([], ASSUMED_SPREAD)).toThrow(RangeError);
    for (const ks of [[-0.2], [0], [0.1, -0.1], [-0.1, 0, 0.1, 0.3, -0.2, 0.001], [1, 100, 3, 0.2, 50, 7]]) {
      const { low, high, value, u, dof, prediction } = poolCadr(membersOf(...ks.map((k) => ({ k }))), ASSUMED_SPREAD);
      for (const each of [low, high, value, u, dof, prediction.low, prediction.high])
        expect(Number.isFinite(each)).toBe(true);
      expect(low).toBeLessThan(value);
      expect(high).toBeGreaterThan(value);
      expect(prediction.low).toBeLessThanOrEqual(low);
    }
  });

  test("the largest change is that of pooling again without one, weights as they are", () => {
    const members = membersOf({ k: 7, u: 0.3 }, { k: 9, u: 0.1 }, { k: 8.3, u: 0.2 }, { k: 11, u: 0.5 });
    const pooled = poolCadr(members, ASSUMED_SPREAD);
    const studies = pooled.laboratories.map(({ cadrM3PerH: { value, u } }) => ({ value, variance: u * u }));
    const changes = studies.map(
      (_, i) => randomEffects(studies.toSpliced(i, 1), pooled.tauM3PerH ** 2).value - pooled.value,
    );
    const largest = changes.toSorted((a, b) => Math.abs(b) - Math.abs(a))[0]!;
    expect(pooled.leftOutChangeM3PerH).toBeCloseTo(largest, 9);
  });

  test("whatever is sent, figures are finite, in order, and do not hang on the order of members", () => {
    const positive = (max: number) => fc.double({ min: 1e-4, max, noNaN: true });
    const sent = fc
      .record({
        k: fc.double({ min: -3, max: 60, noNaN: true }),
        u: positive(10),
        dof: fc.constantFrom(1, 3, 7.5, 40, Infinity),
        submitter: fc.integer({ min: 0, max: 6 }),
        room: fc.integer({ min: 0, max: 1 }),
        natural: fc.option(fc.record({ perH: positive(3), u: positive(3), run: fc.constantFrom("a", "b", null) })),
      })
      .map(({ k, u, dof, submitter, room, natural }): Member => {
        const volumeM3 = { value: 20 + 13 * submitter, u: 0.1 + room, dof: Infinity };
        const where = { submitter: `s${submitter}`, room: `s${submitter}/${room}`, trial: "" };
        return { ...where, volumeM3, kDifferencePerH: { value: k, u, dof }, natural };
      });
    fc.assert(
      fc.property(fc.array(sent, { minLength: 1, maxLength: 14 }), (members) => {
        const named = members.map((member, i) => ({ ...member, trial: `t${i}` }));
        const pooled = poolCadr(named, ASSUMED_SPREAD);
        const { low, high, value, u, dof, prediction, tauM3PerH } = pooled;
        for (const each of [value, u, dof, low, high, prediction.u, prediction.low, prediction.high, tauM3PerH])
          expect(Number.isFinite(each)).toBe(true);
        expect(low).toBeLessThan(value);
        expect(high).toBeGreaterThan(value);
        expect(prediction.u).toBeGreaterThanOrEqual(u);
        expect(poolCadr(named.toReversed(), ASSUMED_SPREAD)).toEqual(pooled);
      }),
    );
  });

  test("weights by u at a common rate leave no bias where u goes with the rate seen", () => {
    const random = createRandom(20261125);
    let [pooled, bySeenU] = [0, 0];
    const rounds = 400;
    for (let i = 0; i < rounds; i++) {
      const natural = { perH: 0.001, u: 0.0001, run: "n" };
      const seen = Array.from({ length: 12 }, () => 8 * (1 + 0.1 * random.normal()));
      const members = membersOf(...seen.map((k) => ({ k, u: 0.1 * k, room: "r", natural })));
      pooled += poolCadr(members, NO_SPREAD).value / 240 / rounds;
      const sum = seen.reduce((total, k) => total + 1 / k ** 2, 0);
      bySeenU += seen.reduce((mean, k) => mean + 1 / k / sum, 0) / 8 / rounds;
    }
    expect(Math.abs(pooled - 1)).toBeLessThan(0.005); // standard error 0.0014
    expect(bySeenU).toBeLessThan(0.985); // −2·(10 %)², less an eleventh or so
  });
});
