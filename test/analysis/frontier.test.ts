import fc from "fast-check";
import { expect, test } from "vitest";
import { frontier, type NoiseAgainstCadr } from "../../analysis/frontier.ts";

const entry = (cadr: [number, number], noise: [number, number]): NoiseAgainstCadr => ({
  cadrM3PerH: { low: cadr[0], high: cadr[1] },
  noiseDb: { low: noise[0], high: noise[1] },
});

test("who is both louder and weaker beyond doubt is off the frontier", () => {
  const strong = entry([300, 400], [50, 54]);
  const quiet = entry([80, 120], [30, 34]);
  const beaten = entry([200, 280], [56, 60]);
  const inDoubt = entry([200, 310], [56, 60]);
  expect(frontier([beaten, strong, quiet, inDoubt])).toEqual([false, true, true, true]);
});

test("an upper bound on noise is never surely louder, yet may be surely quieter", () => {
  const bound = entry([300, 400], [-Infinity, 40]);
  expect(frontier([bound, entry([100, 200], [45, 50]), entry([100, 200], [-Infinity, 50])])).toEqual([
    true,
    false,
    true,
  ]);
});

test("is what looking at every pair gives", () => {
  const ends = fc.tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 10 }));
  const anyEntry = fc.tuple(ends, ends).map(([[c, dc], [n, dn]]) => entry([c, c + dc], [n, n + dn]));
  fc.assert(
    fc.property(fc.array(anyEntry, { maxLength: 40 }), (entries) => {
      const byPairs = entries.map(
        (mine) =>
          !entries.some(
            (other) => other.noiseDb.high < mine.noiseDb.low && other.cadrM3PerH.low > mine.cadrM3PerH.high,
          ),
      );
      expect(frontier(entries)).toEqual(byPairs);
    }),
  );
});
