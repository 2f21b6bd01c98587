import { describe, expect, test } from "vitest";
import { learnSpread } from "../../../analysis/pooling/learn-spread.ts";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { membersOf } from "./members.ts";

/** Entries of three laboratories each, which differ by 13 % and repeat to 3 %. */
function entries(
  count: number,
  seed: number,
  relative = 0.13,
  submitters = (entry: number, i: number) => `${entry}/${i}`,
) {
  const random = createRandom(seed);
  return Array.from({ length: count }, (_, entry) => ({
    invented: false,
    members: membersOf(
      ...Array.from({ length: 3 }, (_, i) => {
        const k = (2 + entry) * (1 + relative * random.normal()) * (1 + 0.03 * random.normal());
        return { k, u: 0.03 * k, submitter: submitters(entry, i) };
      }),
    ),
  }));
}

describe("the spread between laboratories", () => {
  test("is found where many entries show it, and trusted for 30 dof at most", () => {
    const { relative, dof, source, entries: used } = learnSpread(entries(400, 1));
    expect(relative).toBeGreaterThan(0.12); // standard error 3 %
    expect(relative).toBeLessThan(0.14);
    expect({ dof, source, used }).toEqual({ dof: 30, source: "learnt", used: 400 });
  });

  test("is right on the average of small registries too, with the dof it says", () => {
    const learnt = Array.from({ length: 300 }, (_, i) => learnSpread(entries(5, 100 + i)));
    const s2 = learnt.map(({ relative }) => relative ** 2);
    const mean = s2.reduce((a, b) => a + b, 0) / s2.length;
    const sd = Math.sqrt(s2.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (s2.length - 1));
    expect(Math.sqrt(mean)).toBeGreaterThan(0.12);
    expect(Math.sqrt(mean)).toBeLessThan(0.14);
    const dof = learnt.map((each) => each.dof).sort((a, b) => a - b)[150]!;
    expect(dof / (2 * (mean / sd) ** 2)).toBeGreaterThan(0.7); // ν = 2(s²/SD of s²)², here near 10
    expect(dof / (2 * (mean / sd) ** 2)).toBeLessThan(1.4);
  });

  test("is assumed until three entries have three laboratories each; invented ones do not count", () => {
    const assumed = { relative: 0.13, dof: 8, source: "assumed", entries: 0 };
    const three = entries(3, 2);
    expect(learnSpread(three).source).toBe("learnt");
    expect(learnSpread(three.slice(1))).toEqual(assumed);
    expect(learnSpread([...three.slice(1), { ...three[0]!, invented: true }])).toEqual(assumed);
    expect(learnSpread(entries(9, 3, 0.13, () => "one submitter"))).toEqual(assumed);
  });

  test("the same few laboratories in many entries stay few", () => {
    expect(learnSpread(entries(50, 4, 0.13, (_, i) => `s${i}`)).dof).toBe(2);
  });

  test("is never 0: less than its own standard error cannot be told", () => {
    const { relative, dof } = learnSpread(entries(4, 5, 0));
    expect(relative).toBeGreaterThan(0.005);
    expect(relative).toBeLessThan(0.05);
    expect(dof).toBeGreaterThanOrEqual(2 - 1e-9);
  });
});
