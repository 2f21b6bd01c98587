import { describe, expect, test } from "vitest";
import type { Member } from "../../../analysis/pooling/member.ts";
import { poolCadr } from "../../../analysis/pooling/pool-cadr.ts";
import { poolRoom } from "../../../analysis/pooling/pool-room.ts";
import { invertPositiveDefinite } from "../../../analysis/positive-definite.ts";
import { membersOf } from "./members.ts";

/** Generalised least squares mean with the whole covariance matrix: μ = 1ᵀC⁻¹y / 1ᵀC⁻¹1, u² = 1/1ᵀC⁻¹1. */
function denseMean(y: readonly number[], covariance: readonly (readonly number[])[]) {
  const { inverse } = invertPositiveDefinite(covariance)!;
  const weights = inverse.map((row) => row.reduce((a, b) => a + b, 0));
  const sum = weights.reduce((a, b) => a + b, 0);
  return { value: y.reduce((mean, each, i) => mean + (weights[i]! * each) / sum, 0), u: 1 / Math.sqrt(sum) };
}

/** Covariance of k_total − k_natural: u² each, u_natural² where two share the run; the rest of u brought to the common rate. */
function ofRates(members: readonly Member[], commonPerH: number) {
  return members.map((a, i) =>
    members.map((b, j) => {
      const shared = a.natural!.run === b.natural!.run ? a.natural!.u ** 2 : 0;
      if (i !== j) return shared;
      const { value, u } = a.kDifferencePerH;
      return shared + (u * u - shared) * ((commonPerH + a.natural!.perH) / (value + a.natural!.perH)) ** 2;
    }),
  );
}

const natural = (run: string, perH: number, u: number) => ({ run, perH, u });

describe("one room with shared natural runs", () => {
  const [a, b] = [natural("x", 0.4, 0.06), natural("y", 0.5, 0.03)];
  const members = membersOf(
    { k: 8.0, u: 0.15, room: "r", natural: a },
    { k: 8.1, u: 0.1, room: "r", natural: a },
    { k: 7.95, u: 0.2, room: "r", natural: a },
    { k: 8.05, u: 0.12, room: "r", natural: b },
  );

  test.each([240, 150])("pools as the dense covariance does, at a common rate of %d m³/h", (cadr) => {
    const dense = denseMean(
      members.map(({ kDifferencePerH }) => kDifferencePerH.value),
      ofRates(members, cadr / 30),
    );
    const { kDifferencePerH } = poolRoom(members, cadr);
    expect(kDifferencePerH.value).toBeCloseTo(dense.value, 12);
    expect(kDifferencePerH.u).toBeCloseTo(dense.u, 12);
  });

  test("a hundred trials on one natural run are no better than that run", () => {
    const many = membersOf(...Array.from({ length: 100 }, () => ({ k: 8, u: 0.1, room: "r", natural: a })));
    expect(poolRoom(many, 240).kDifferencePerH.u).toBeCloseTo(Math.sqrt((0.01 - 0.0036) / 100 + 0.0036), 12);
  });

  test("an assumed loss is one guess for the room; an unknown one is each trial's own", () => {
    const u = (run: Member["natural"]) =>
      poolRoom(membersOf({ k: 8, room: "r", natural: run }, { k: 8, room: "r", natural: run }), 240).kDifferencePerH.u;
    expect(u({ run: null, perH: 0.5, u: 0.06 })).toBeCloseTo(Math.sqrt((0.01 - 0.0036) / 2 + 0.0036), 12);
    expect(u(null)).toBeCloseTo(Math.sqrt(0.01 / 2), 12);
  });
});

test("a whole entry pools as the dense covariance of natural runs, volumes and laboratories does", () => {
  const big = { value: 80, u: 4, dof: Infinity };
  const small = { value: 20, u: 0.4, dof: Infinity };
  const members = membersOf(
    { k: 3.0, u: 0.05, room: "a1", submitter: "a", volumeM3: big, natural: natural("1", 0.3, 0.02) },
    { k: 3.02, u: 0.04, room: "a1", submitter: "a", volumeM3: big, natural: natural("1", 0.3, 0.02) },
    { k: 12.2, u: 0.3, room: "a2", submitter: "a", volumeM3: small, natural: natural("2", 0.6, 0.05) },
    { k: 12.4, u: 0.25, room: "a2", submitter: "a", volumeM3: small, natural: natural("3", 0.5, 0.05) },
    { k: 8.6, u: 0.2, room: "b", submitter: "b", natural: natural("4", 0.4, 0.05) },
    { k: 11.5, u: 0.3, room: "c", submitter: "c", volumeM3: small, natural: natural("5", 0.4, 0.05) },
  );
  const spread = { relative: 0.13, dof: 1e12, source: "learnt" } as const; // the entry's own scatter then adds nothing
  const pooled = poolCadr(members, spread);
  const covariance = members.map((a) =>
    members.map((b) => {
      const sameRoom = members.filter(({ room }) => room === a.room);
      const rates = ofRates(sameRoom, pooled.value / a.volumeM3.value);
      const inRoom = a.room === b.room ? rates[sameRoom.indexOf(a)]![sameRoom.indexOf(b)]! * a.volumeM3.value ** 2 : 0;
      const volume = a.room === b.room ? ((pooled.value * a.volumeM3.u) / a.volumeM3.value) ** 2 : 0;
      const laboratory = a.submitter === b.submitter ? (0.13 * pooled.value) ** 2 : 0;
      return inRoom + volume + laboratory;
    }),
  );
  const dense = denseMean(
    members.map(({ volumeM3, kDifferencePerH }) => volumeM3.value * kDifferencePerH.value),
    covariance,
  );
  expect(pooled.laboratories.map(({ widening }) => widening)).toEqual([1, 1, 1]); // no Birge ratio over 1 here
  expect(pooled.value / dense.value).toBeCloseTo(1, 8);
  expect(pooled.u / dense.u).toBeCloseTo(1, 8);
});
