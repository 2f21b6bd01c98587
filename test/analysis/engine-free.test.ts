import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cosOfTurns } from "../../analysis/cos-of-turns.ts";
import { exp, expm1, sinh, tanh } from "../../analysis/exp.ts";
import { log, log1p } from "../../analysis/log.ts";
import pinned from "../fixtures/exp-log.fixture.json" with { type: "json" };

/* Against the engine's own, which are right to a unit or two in the last place. */
const EPSILON = 2 ** -52;

function expectWithin(
  units: number,
  ours: (x: number) => number,
  theirs: (x: number) => number,
  x: fc.Arbitrary<number>,
) {
  fc.assert(
    fc.property(x, (at) => {
      const want = theirs(at);
      expect(Math.abs(ours(at) - want)).toBeLessThanOrEqual(units * EPSILON * Math.abs(want) + 1e-323);
    }),
    { numRuns: 5000 },
  );
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("by arithmetic alone, to the last few digits", () => {
  test("exp", () => expectWithin(2, exp, Math.exp, between(-700, 709)));
  test("exp of little", () => expectWithin(2, exp, Math.exp, between(-2, 2)));
  test("expm1", () => expectWithin(4, expm1, Math.expm1, between(-3, 3)));
  test("log", () => expectWithin(3, log, Math.log, between(1e-300, 1e300)));
  test("log near 1", () => expectWithin(3, log, Math.log, between(0.5, 2)));
  test("log1p", () => expectWithin(3, log1p, Math.log1p, between(-0.99, 5)));
  test("sinh", () => expectWithin(4, sinh, Math.sinh, between(-20, 20)));
  test("tanh", () => expectWithin(6, tanh, Math.tanh, between(-25, 25)));
  test("cosOfTurns", () =>
    fc.assert(
      fc.property(between(0, 1), (x) => {
        expect(Math.abs(cosOfTurns(x) - Math.cos(2 * Math.PI * x))).toBeLessThan(1e-15);
      }),
      { numRuns: 5000 },
    ));
});

// The worst of 100 000 random arguments each: 1.38 and 1.91 units.
describe.each([
  ["exp", exp, pinned.exp, 1.5],
  ["log", log, pinned.log, 2],
] as const)("%s against 200 bits", (_, ours, rows, most) => {
  test.each(rows)("of $x", ({ x, nearest, restUlp }) => {
    expect(Math.abs((ours(x) - nearest) / lastPlace(nearest) - restUlp)).toBeLessThanOrEqual(most);
  });
});

/** The unit in the last place of a double. */
function lastPlace(y: number): number {
  return 2 ** Math.max(-1074, Math.floor(Math.log2(Math.abs(y))) - 52);
}

test("ends of the range", () => {
  expect([exp(0), exp(Infinity), exp(-Infinity), exp(710), exp(-746), exp(Number.NaN)]).toEqual([
    1,
    Infinity,
    0,
    Infinity,
    0,
    Number.NaN,
  ]);
  expect([log(1), log(0), log(Infinity), log(-1), log(Number.NaN)]).toEqual([
    0,
    -Infinity,
    Infinity,
    Number.NaN,
    Number.NaN,
  ]);
  expect([exp(-0), log(-0), expm1(-0), log1p(-0), exp(709.7827128933841), exp(-745.2)]).toEqual([
    1,
    -Infinity,
    -0,
    -0,
    Infinity,
    0,
  ]);
  expect(log(5e-324)).toBeCloseTo(-744.4400719213812, 12);
  expect([expm1(-Infinity), expm1(Infinity), log1p(-1), log1p(0), tanh(400), sinh(0)]).toEqual([
    -1,
    Infinity,
    -Infinity,
    0,
    1,
    0,
  ]);
});

// Bits, not digits: a change of these is a change of every stored result.
test("the very bits, in any engine", () => {
  expect([exp(1.5), exp(-7.25), log(7), log(0.3), expm1(1e-3), log1p(-0.25), cosOfTurns(0.1)]).toEqual(BITS);
});

const BITS = [
  4.4816890703380645, 0.0007101743888425491, 1.9459101490553132, -1.2039728043259361, 0.0010005001667083414,
  -0.2876820724517809, 0.8090169943749475,
];
