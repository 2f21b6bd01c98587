import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import type { FindingCode } from "../../../analysis/analysis.ts";
import { kindsNamed } from "../../campaigns/kinds.ts";
import { MODELLED_KINDS } from "../../campaigns/modelled-kinds.ts";
import { createDice, type Kind } from "../../campaigns/occasion.ts";

const SEED = 20261125;

/** Share of trials of these kinds that raise each finding. */
function raisedIn(kinds: readonly Kind[], trials: number): (code: FindingCode) => number {
  const codes = kinds.flatMap((kind) =>
    Array.from({ length: trials }, (_, i) => {
      const { trial, band } = kind.draw(createDice(SEED, kind.name, i));
      const result = analyseTrial(trial).results.find(({ band: { name } }) => name === band);
      return new Set(result?.findings.map(({ code }) => code));
    }),
  );
  return (code) => codes.filter((found) => found.has(code)).length / codes.length;
}

describe("findings that chance can raise", () => {
  const share = raisedIn(MODELLED_KINDS, 40);

  test.each([
    "uneven-decay",
    "long-memory",
    "lack-of-fit",
    "non-monotone",
    "undeclared-lag",
    "speed-change",
    "still-being-fed",
    "counters-spread",
  ] as const)("%s: at most 6 % of sound trials", (code) => {
    expect(share(code)).toBeLessThanOrEqual(0.06);
  });
});

test.each([
  ["drifting-k", "uneven-decay", 0.35],
  ["lag-quantised", "undeclared-lag", 0.25],
  ["long-memory", "long-memory", 0.25],
] as const)("of %s trials %s is raised in %d at least", (kind, code, least) => {
  expect(raisedIn(kindsNamed([kind]), 60)(code)).toBeGreaterThanOrEqual(least);
});
