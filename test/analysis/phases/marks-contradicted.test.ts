import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import { interval95 } from "../../../analysis/estimate.ts";
import { prepareRun } from "../../../analysis/prepare-run.ts";
import type { MarkEvent, Run } from "../../../analysis/trial.ts";
import { massOf } from "../test-runs.ts";
import { COUNTER, trialOf } from "../trial-of.ts";
import { FEED, off, on, stagedRun } from "./staged-run.ts";

const TRUTH = 150;
const FEED_END_S = 420;
const ON_S = 1620;
const STAGES = [off(5), FEED, off(20), on(30)];
const mark = (event: MarkEvent, tS: number) => ({ event, tS });
const log = (marks: Run["marks"], seed = 11) => stagedRun(0, "full_log", STAGES, seed, { marks });
const resultOf = (run: Run) => massOf(analyseTrial(trialOf([run])));
const said = (run: Run) => resultOf(run).findings.find(({ code }) => code === "marks-contradicted");
const holds = (run: Run) => {
  const { low, high } = interval95(resultOf(run).cadrM3PerH);
  return low < TRUTH && TRUTH < high;
};

describe("a cleaner_on that the readings contradict", () => {
  test.each([-600, -300, 300, 600])(
    "by %d s: it is told by how much, and what lies between is used for neither decay",
    (wrongS) => {
      const run = log([mark("cleaner_on", ON_S + wrongS)]);
      const finding = said(run)!;
      expect(Math.abs(finding.value! + wrongS)).toBeLessThan(40);
      expect(finding.message).toContain(wrongS < 0 ? "after the mark “cleaner on”" : "before the mark “cleaner on”");
      const { total, natural } = resultOf(run);
      expect(natural.decays[0]!.window.toS).toBeLessThanOrEqual(Math.min(ON_S + wrongS, ON_S + 20));
      expect(total.window.fromS).toBeGreaterThanOrEqual(Math.max(ON_S + wrongS, ON_S - 20));
      expect(total.window.why).toMatch(/mark “cleaner on” and the switch-on seen in the log/);
      expect(holds(run)).toBe(true);
    },
  );

  test("from before the feed: the natural decay is not taken for the cleaner's work", () => {
    const run = log([mark("cleaner_on", 60)]);
    expect(said(run)!.value).toBeGreaterThan(1500);
    expect(resultOf(run).total.window.fromS).toBeGreaterThan(ON_S - 20);
    expect(Math.abs(resultOf(run).total.kPerH.value / 5.4 - 1)).toBeLessThan(0.05);
  });

  test("the log's own answer stands beside the mark", () => {
    const { switchOn } = prepareRun(log([mark("cleaner_on", ON_S - 300)]), COUNTER).timeline.cycles[0]!;
    expect(switchOn).toMatchObject({ atS: ON_S - 300, marked: true });
    expect(Math.abs(switchOn!.seenS! - ON_S)).toBeLessThan(Math.max(30, 4 * switchOn!.uS));
  });
});

test("an aerosol_end while the readings still rise, and marks after the last reading, are told", () => {
  const early = log([mark("aerosol_end", FEED_END_S - 110), mark("cleaner_on", ON_S)]);
  expect(said(early)!.value).toBeGreaterThan(60);
  expect(said(early)!.message).toMatch(/“aerosol end”/);
  expect(holds(early)).toBe(true);
  for (const event of ["cleaner_on", "aerosol_end"] as const) {
    const outside = log([mark(event, 90_000)]);
    expect(said(outside)!.value).toBeCloseTo(3420 - 90_000, -1);
    expect(holds(outside)).toBe(true);
  }
});

describe("marks that are right raise nothing", () => {
  test.each([0, -20, 20])("%d s off, in forty logs", (offS) => {
    const runs = Array.from({ length: 40 }, (_, i) =>
      log([mark("aerosol_end", FEED_END_S), mark("cleaner_on", ON_S + offS)], 300 + i),
    );
    expect(runs.filter(said)).toEqual([]);
  });

  test("nor a cleaner_on before a feed under the running cleaner, a cleaner_off after the last row, no mark at all", () => {
    const fed = stagedRun(0, "full_log", [on(5), { ...FEED, cleaner: 1 }, on(30)], 12, {
      marks: [mark("cleaner_on", 0)],
    });
    expect(said(fed)).toBeUndefined();
    expect(said(log([mark("cleaner_on", ON_S), mark("cleaner_off", 90_000)]))).toBeUndefined();
    expect(said(log([]))).toBeUndefined();
  });
});
