import stdlibQuantile from "@stdlib/stats-base-dists-t-quantile";
import { describe, expect, test } from "vitest";
import { tCdf, tQuantile } from "../../analysis/student-t.ts";
import table from "../fixtures/t-quantiles.fixture.json" with { type: "json" };

const rowsOf = (name: string) => table.cases.find((each) => each.name === name)!.rows as unknown[][];
const dofOf = (df: unknown) => (df === null ? Infinity : Number(df));
const relativeError = (found: number, certified: number) => Math.abs(found / certified - 1);

describe("tQuantile", () => {
  test("JCGM 100:2008 Table G.2: to 1e-12 as computed with 40 digits, to the last figure as printed", () => {
    const rows = rowsOf("gum") as [number | null, number[], number[]][];
    expect(rows).toHaveLength(28);
    for (const [df, published, computed] of rows)
      for (const [i, coverage] of table.coverages.entries()) {
        const t = tQuantile((1 + coverage) / 2, dofOf(df));
        expect(relativeError(t, computed[i]!)).toBeLessThan(1e-12);
        const misprinted = df === 35 && coverage === 0.9;
        if (!misprinted) expect(Math.abs(t - published[i]!)).toBeLessThan(df === null ? 0.0051 : 0.00501);
      }
  });

  test("other degrees of freedom, 0.5 to a million, whole or not", () => {
    // (1 + p)/2 is itself rounded: near 1 that alone moves the quantile, by up to 1e-16/(1 − p) of a heavy tail's 1/ν.
    for (const [df, coverages, computed] of rowsOf("other") as [number | null, number[], number[]][])
      for (const [i, coverage] of coverages.entries())
        expect(relativeError(tQuantile((1 + coverage) / 2, dofOf(df)), computed[i]!)).toBeLessThan(1e-12);
  });

  test("infinite degrees of freedom: normal quantiles from 1e-12 up", () => {
    // Near 1 the rounding of p itself moves the quantile: 2⁻⁵³/(1 − p), relative.
    for (const [p, z] of rowsOf("normal") as [number, number][])
      if (z === 0) expect(tQuantile(p, Infinity)).toBe(0);
      else expect(relativeError(tQuantile(p, Infinity), z)).toBeLessThan(1e-13 + 2 ** -53 / (1 - p));
  });

  test("another implementation (stdlib) over dof 1 to 300 and p from 1e-6 up", () => {
    for (const dof of [1, 1.5, 2, 2.5, 3, 4.7, 9, 16.75, 58.339, 100, 300])
      for (const p of [1e-6, 1e-3, 0.025, 0.2, 0.3, 0.45, 0.55, 0.75, 0.9, 0.975, 0.995])
        expect(relativeError(tQuantile(p, dof), stdlibQuantile(p, dof)), `p ${p}, dof ${dof}`).toBeLessThan(1e-12);
  });

  test("closed forms: dof 1 is tan π(p − ½), dof 2 is (2p − 1)/√(2p(1 − p))", () => {
    for (const p of [1e-30, 1e-9, 0.01, 0.24, 0.26, 0.4, 0.6, 0.99]) {
      expect(relativeError(tQuantile(p, 1), -1 / Math.tan(Math.PI * p))).toBeLessThan(1e-13);
      expect(relativeError(tQuantile(p, 2), (2 * p - 1) / Math.sqrt(2 * p * (1 - p)))).toBeLessThan(1e-13);
    }
  });

  test("tends to the normal quantile as z + (z³ + z)/4ν (Abramowitz & Stegun 26.7.5), without losing digits", () => {
    const z = tQuantile(0.975, Infinity);
    for (const dof of [1e8, 1e12, 1e15])
      expect(relativeError(tQuantile(0.975, dof), z + (z ** 3 + z) / (4 * dof))).toBeLessThan(1e-14);
  });

  test("odd about p = ½ and 0 there", () => {
    expect(tQuantile(0.5, 7)).toBe(0);
    expect(tQuantile(0.25, 3.3)).toBe(-tQuantile(0.75, 3.3));
  });

  test.each([
    [0, 5],
    [1, 5],
    [-0.1, 5],
    [Number.NaN, 5],
    [0.5, 0],
    [0.5, -1],
    [0.5, Number.NaN],
  ])("refuses p = %d at %d degrees of freedom", (p, dof) => expect(() => tQuantile(p, dof)).toThrow(RangeError));
});

describe("tCdf", () => {
  test("computed with 40 digits", () => {
    for (const [df, t, cdf] of rowsOf("probabilities") as [number | null, number, number][])
      expect(relativeError(tCdf(t, dofOf(df)), cdf)).toBeLessThan(1e-12);
  });

  test("undoes the quantile on both sides", () => {
    for (const dof of [1, 2.2, 9, 1000, Infinity])
      for (const p of [1e-20, 0.01, 0.3, 0.5, 0.6, 0.999])
        expect(relativeError(tCdf(tQuantile(p, dof), dof), p)).toBeLessThan(1e-12);
  });

  test("refuses NaN", () => expect(() => tCdf(Number.NaN, 5)).toThrow(RangeError));
});
