import { describe, expect, test } from "vitest";
import { betweenVariance, derSimonianLaird, hedges, pauleMandel } from "../../../analysis/pooling/between-variance.ts";
import { cochranQ, randomEffects, type Study, shareBetween } from "../../../analysis/pooling/random-effects.ts";
import { likelyVariance } from "../../../analysis/pooling/restricted-likelihood.ts";
import { tQuantile } from "../../../analysis/student-t.ts";
import reference from "../../fixtures/meta-analysis.fixture.json" with { type: "json" };

type Estimator = "EE" | "DL" | "REML" | "PM" | "ML" | "HE";
interface Certified {
  readonly tau2: number;
  readonly Q: number;
  readonly I2: number;
  readonly estimate: number;
  readonly se: number;
  readonly ciLow: number;
  readonly ciHigh: number;
  readonly knappHartung: readonly number[];
  readonly adHoc: readonly number[];
  readonly prediction?: Readonly<Record<"normal" | "knappHartungT" | "tKminus2", readonly number[] | undefined>>;
}

const BY: Record<Estimator, (studies: readonly Study[]) => number> = {
  EE: () => 0,
  DL: derSimonianLaird,
  REML: betweenVariance,
  PM: pauleMandel,
  ML: (studies) => likelyVariance([studies], 0, false)!.tau2,
  HE: hedges,
};

const cases = reference.cases.flatMap(({ name, y, v, results }) =>
  Object.entries(results).map(([by, certified]) => ({
    name,
    by: by as Estimator,
    studies: y.map((value, i) => ({ value, variance: v[i]! })),
    certified: certified as unknown as Certified,
  })),
);

/** Within 1e-8 of the certified number, relative; absolute where it is 0. */
const near = (found: number, certified: number) =>
  expect(Math.abs(found - certified)).toBeLessThanOrEqual(1e-8 * (Math.abs(certified) || 1));

test("there are six sets with six estimators each", () => expect(cases).toHaveLength(36));

describe.each(cases)("$name, $by", ({ by, studies, certified }) => {
  const k = studies.length;
  const tau2 = BY[by](studies);
  const { value, u, q } = randomEffects(studies, tau2);
  const [z, t1] = [tQuantile(0.975, Infinity), tQuantile(0.975, k - 1)];
  const around = (half: number) => [value - half, value + half];

  test("τ², Q and I²", () => {
    near(tau2, certified.tau2);
    near(cochranQ(studies), certified.Q);
    const fromQ = Math.max(0, 1 - (k - 1) / cochranQ(studies));
    near(by === "EE" ? fromQ : shareBetween(studies, tau2), certified.I2);
  });

  test("mean and its interval, plain, by Knapp and Hartung, and guarded", () => {
    near(value, certified.estimate);
    near(u, certified.se);
    const interval = ([se, low, high]: readonly number[], found: number, t: number) => {
      near(found, se!);
      around(t * found).forEach((end, i) => {
        near(end, [low!, high!][i]!);
      });
    };
    interval([certified.se, certified.ciLow, certified.ciHigh], u, z);
    interval(certified.knappHartung, u * Math.sqrt(q), t1);
    interval(certified.adHoc, u * Math.sqrt(Math.max(1, q)), t1);
  });

  const { prediction } = certified;
  if (prediction === undefined) return; // equal effects foresee no other study
  test("interval for the next study", () => {
    const { normal, knappHartungT, tKminus2 } = prediction;
    const ends = (t: number, se: number) => around(t * Math.sqrt(se * se + tau2));
    const same = (found: number[], expected: readonly number[]) =>
      found.forEach((end, i) => {
        near(end, expected[i]!);
      });
    same(ends(z, u), normal!);
    same(ends(t1, u * Math.sqrt(q)), knappHartungT!);
    if (tKminus2) same(ends(tQuantile(0.975, k - 2), u), tKminus2);
  });
});
