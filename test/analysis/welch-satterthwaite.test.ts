import { expect, test } from "vitest";
import { tQuantile } from "../../analysis/student-t.ts";
import { welchSatterthwaite } from "../../analysis/welch-satterthwaite.ts";

test("GUM G.4.1: a product of three, n = 10, 5 and 15: u_c 1.03 %, dof 19.0 (inputs from memory of JCGM 100:2008)", () => {
  const { u, dof } = welchSatterthwaite([
    { u: 0.25, dof: 9 },
    { u: 0.57, dof: 4 },
    { u: 0.82, dof: 14 },
  ]);
  expect(u).toBeCloseTo(1.03, 2);
  expect(dof).toBeCloseTo(18.9987, 4);
});

test("GUM H.1: end gauge, u_c 31.664 nm, effective dof 16.75, t99 2.921, U99 93 nm (JCGM 100:2008 Table H.1)", () => {
  // The comparison: mean of five, comparator random and systematic.
  const comparison = welchSatterthwaite([
    { u: 5.8, dof: 24 },
    { u: 3.9, dof: 5 },
    { u: 6.7, dof: 8 },
  ]);
  expect(comparison.u).toBeCloseTo(9.681941953967707, 12);
  expect(comparison.dof).toBeCloseTo(25.44725077736272, 10);
  const lengthNm = 50000623;
  const [alpha, theta] = [11.5e-6, -0.1];
  const whole = welchSatterthwaite([
    { u: 25, dof: 18 },
    comparison,
    { u: Math.abs(lengthNm * theta) * (1e-6 / Math.sqrt(3)), dof: 50 },
    { u: lengthNm * alpha * (0.05 / Math.sqrt(3)), dof: 2 },
  ]);
  expect(whole.u).toBeCloseTo(31.663879111008633, 10);
  expect(whole.dof).toBeCloseTo(16.751855737627245, 10);
  const t99 = tQuantile(0.995, Math.floor(whole.dof));
  expect(t99).toBeCloseTo(2.9207816224251, 12);
  expect(t99 * whole.u).toBeCloseTo(92.48327620212403, 9);
});

test("known components do not lower the degrees of freedom, one alone keeps its own", () => {
  expect(
    welchSatterthwaite([
      { u: 3, dof: Infinity },
      { u: 4, dof: Infinity },
    ]),
  ).toEqual({ u: 5, dof: Infinity });
  expect(welchSatterthwaite([{ u: 0, dof: 3 }])).toEqual({ u: 0, dof: Infinity });
  expect(welchSatterthwaite([{ u: 2e-200, dof: 7 }]).dof).toBeCloseTo(7, 12);
  expect(
    welchSatterthwaite([
      { u: 1, dof: 4 },
      { u: 1, dof: Infinity },
    ]).dof,
  ).toBeCloseTo(16, 12);
});

test.each([
  [-1, 3],
  [Number.NaN, 3],
  [1, 0],
  [1, Number.NaN],
])("refuses u %d with %d degrees of freedom", (u, dof) =>
  expect(() => welchSatterthwaite([{ u, dof }])).toThrow(RangeError),
);
