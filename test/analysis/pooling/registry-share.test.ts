import { expect, test } from "vitest";
import { FORTY, judgeRanks, judgeRegistry, THIRTY } from "../../campaigns/registry-verdict.ts";

/** A small part of the registry campaign at a seed of its own; limits lie three standard errors outside the campaign's. */
const REPETITIONS = 30;
const SEED = 7;

test("pooled intervals hold the truth whether one, two, three or more laboratories made them; naive ones do not", () => {
  const verdicts = Array.from({ length: REPETITIONS }, (_, i) => judgeRegistry(FORTY, SEED, i)).flat();
  const share = (of: typeof verdicts, way: "pooled" | "naive" | "next") =>
    of.filter((each) => each[way].held).length / of.length;
  for (const count of [1, 2, 3]) {
    const some = verdicts.filter(({ laboratories }) => laboratories === count);
    expect(share(some, "pooled")).toBeGreaterThan(0.9);
    expect(share(some, "naive")).toBeLessThan(0.8);
  }
  expect(share(verdicts, "pooled")).toBeGreaterThan(0.93);
  expect(share(verdicts, "pooled")).toBeLessThan(0.98);
  expect(share(verdicts, "next")).toBeGreaterThan(0.92);
  const bias = verdicts.reduce((sum, { pooled }) => sum + pooled.error, 0) / verdicts.length;
  expect(Math.abs(bias)).toBeLessThan(0.02);
});

test("all true ranks lie inside their ranges, and the ranges say something", () => {
  const ranked = Array.from({ length: 60 }, (_, i) => judgeRanks(THIRTY, SEED, i));
  expect(ranked.filter(({ held }) => held).length / ranked.length).toBeGreaterThanOrEqual(0.94);
  expect(ranked.reduce((sum, { meanWidth }) => sum + meanWidth, 0) / ranked.length).toBeLessThan(18);
});
