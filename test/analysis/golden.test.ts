import { existsSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { METHOD_CHANGES } from "../../analysis/method-changes.ts";
import { METHOD_ORDINAL, METHOD_VERSION } from "../../analysis/method-version.ts";
import { figuresOf, GOLDEN_TRIALS, sha256Of } from "./golden-trials.ts";

interface Golden {
  readonly version: string;
  readonly trials: Readonly<Record<string, { sha256: string; figures: Record<string, number | string> }>>;
}

/** A figure that moves by more than this is another figure; less is the order of a sum. */
const RELATIVE = 1e-9;

const pathOf = (version: string) => new URL(`../fixtures/golden/${version}.fixture.json`, import.meta.url);
const golden = JSON.parse(readFileSync(pathOf(METHOD_VERSION), "utf8")) as Golden;

describe(`what method ${METHOD_VERSION} says stays`, () => {
  test.for(Object.entries(GOLDEN_TRIALS))("%s", ([name, make]) => {
    const trial = make();
    const kept = golden.trials[name]!;
    expect(sha256Of(trial), "the simulated log is another: that is no matter of the method").toBe(kept.sha256);
    const now = Object.fromEntries(figuresOf(analyseTrial(trial)));
    const places = [...new Set([...Object.keys(kept.figures), ...Object.keys(now)])];
    const moved = places.filter((place) => !agree(now[place], kept.figures[place]));
    const shown = moved.slice(0, 5).map((place) => `${place}: ${kept.figures[place]} is now ${now[place]}`);
    expect(shown, "figures moved: bump the version (analysis/method-version.ts, method-changes.ts)").toEqual([]);
  });

  test("every trial that is kept is analysed, and each gives a rate or says why not", () => {
    expect(Object.keys(golden.trials)).toEqual(Object.keys(GOLDEN_TRIALS));
    const rates = Object.values(golden.trials).filter(({ figures }) => "/results/0/cadrM3PerH/value" in figures);
    expect(rates.length).toBe(Object.keys(GOLDEN_TRIALS).length);
  });
});

test("the changelog has every version in order, the running one last, each with its golden results", () => {
  expect(METHOD_CHANGES.map(({ ordinal }) => ordinal)).toEqual(METHOD_CHANGES.map((_, i) => i + 1));
  expect(METHOD_CHANGES.at(-1)).toMatchObject({ version: METHOD_VERSION, ordinal: METHOD_ORDINAL });
  expect(METHOD_CHANGES[0]!.version).toBe("1.0.0");
  const dates = METHOD_CHANGES.map(({ date }) => date);
  expect(dates).toEqual(dates.toSorted());
  for (const { version, changed } of METHOD_CHANGES) {
    expect([version, existsSync(pathOf(version))]).toEqual([version, true]);
    expect(changed.length).toBeGreaterThan(0);
  }
});

function agree(a: number | string | undefined, b: number | string | undefined): boolean {
  if (typeof a !== "number" || typeof b !== "number") return a === b;
  return Math.abs(a - b) <= RELATIVE * Math.max(Math.abs(a), Math.abs(b));
}
