import { describe, expect, test } from "vitest";
import { compare } from "../../analysis/comparing.ts";
import { ASSUMED_SPREAD } from "../../analysis/expected-elsewhere.ts";
import type { Member } from "../../analysis/pooling/member.ts";
import { poolCadr } from "../../analysis/pooling/pool-cadr.ts";
import { createRandom, type Random } from "../../analysis/simulate/random.ts";
import { membersOf } from "./pooling/members.ts";

const pool = (...stated: Parameters<typeof membersOf>) => poolCadr(membersOf(...stated), ASSUMED_SPREAD);

describe("two entries compared", () => {
  test("without a common submitter: the difference of what was pooled, also where five and more scatter", () => {
    const a = pool(...[8, 8.5, 7.4, 9.9, 6.1, 8.8].map((k, i) => ({ k, room: `a${i}` })));
    const b = pool({ k: 6, room: "b1" }, { k: 6.4, room: "b1" }, { k: 6.1, room: "b2", submitter: "of b1" });
    const { value, u, dof, low, high, pairedRooms } = compare(a, b);
    expect(value).toBeCloseTo(a.value - b.value, 6);
    expect(u).toBeCloseTo(Math.hypot(a.u, b.u), 6);
    expect({ dof, pairedRooms }).toEqual({ dof: 5, pairedRooms: 0 });
    expect((low + high) / 2).toBeCloseTo(value, 9);
  });

  test("in one room the volume's error leaves only its share of the difference, and one natural run cancels: by hand", () => {
    const natural = { run: "n", perH: 0.5, u: 0.06 };
    const here = { room: "r", natural, volumeM3: { value: 30, u: 3, dof: Infinity } };
    const [a, b] = [pool({ k: 8, u: 0.1, ...here }), pool({ k: 6, u: 0.09, ...here })];
    const { value, u, pairedRooms } = compare(a, b);
    const rates = 0.1 ** 2 + 0.09 ** 2 - 2 * 0.06 ** 2;
    expect(value).toBeCloseTo(60, 9);
    expect(u).toBeCloseTo(Math.hypot(30 * Math.sqrt(rates), 60 * 0.1, 0.13 * 240, 0.13 * 180), 9);
    expect(pairedRooms).toBe(1);
  });

  test("pairs that agree on the difference narrow it, however far the laboratories lie apart", () => {
    const factors = [0.8, 1.25, 0.9, 1.1, 1.0, 0.85, 1.2, 0.95];
    const of = (k: number, where: string) =>
      pool(...factors.map((factor, i) => ({ k: k * factor, u: 0.05, room: `${where}${i}` })));
    const paired = compare(of(8, "r"), of(7, "r"));
    const apart = compare(of(8, "r"), of(7, "q"));
    expect(paired.pairedRooms).toBe(8);
    expect(paired.u).toBeLessThan(0.8 * apart.u);
    expect(paired.pStronger).toBeGreaterThan(apart.pStronger);
  });

  test("the other way round is the same with the sign turned", () => {
    const a = pool({ k: 8, room: "r" }, { k: 9, room: "q" }, { k: 8.2, room: "s" });
    const b = pool({ k: 7, room: "r" }, { k: 7.7, room: "q" }, { k: 5, room: "t" });
    const [ab, ba] = [compare(a, b), compare(b, a)];
    expect(ba.value).toBeCloseTo(-ab.value, 9);
    expect(ba.u).toBeCloseTo(ab.u, 9);
    expect(ab.pStronger + ba.pStronger).toBeCloseTo(1, 12);
  });
});

/** Six laboratories, off by `place` in all they measure and by `cleaner` in each, volumes off by 4 %; some measure a, some b. */
function simulatePair(random: Random, place: number, cleaner: number): [Member[], Member[]] {
  const [a, b]: [Member[], Member[]] = [[], []];
  for (let i = 0; i < 6; i++) {
    const off = place * random.normal();
    const volume = 30 * (1 + 0.04 * random.normal());
    const measured = (trueCadr: number) =>
      membersOf({
        k: (trueCadr / 30) * (1 + off + cleaner * random.normal()) + 0.1 * random.normal(),
        room: `r${i}`,
        volumeM3: { value: volume, u: 1.2, dof: Infinity },
      });
    if (random.uniform() < 0.8) a.push(...measured(240));
    if (random.uniform() < 0.8) b.push(...measured(200));
  }
  return a.length > 0 && b.length > 0 ? [a, b] : simulatePair(random, place, cleaner);
}

test.each([
  ["nothing in common", 0, 0.13],
  ["most in common", 0.12, 0.05],
])("laboratories with %s: a difference lies inside its interval with 95 % or more", (_, place, cleaner) => {
  const random = createRandom(20261127);
  const rounds = 1000;
  let [held, u, uApart] = [0, 0, 0];
  for (let i = 0; i < rounds; i++) {
    const members = simulatePair(random, place, cleaner);
    const [a, b] = [poolCadr(members[0], ASSUMED_SPREAD), poolCadr(members[1], ASSUMED_SPREAD)];
    const found = compare(a, b);
    held += Number(found.low <= 40 && 40 <= found.high) / rounds;
    u += found.u;
    uApart += Math.hypot(a.u, b.u);
  }
  expect(held).toBeGreaterThan(0.935); // standard error 0.007
  expect(u / uApart).toBeLessThan(place > 0 ? 0.85 : 1);
});
