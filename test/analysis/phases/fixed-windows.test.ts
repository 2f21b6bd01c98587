import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import type { BandResult } from "../../../analysis/analysis.ts";
import type { Run } from "../../../analysis/trial.ts";
import { K_TOTAL, massOf } from "../test-runs.ts";
import { trialOf } from "../trial-of.ts";
import { FEED, off, on, stagedRun } from "./staged-run.ts";

const round = [FEED, off(20), on(25)];
const STAGES = [off(5), ...round, ...round];
const ROUND_S = 120 + 1200 + 1500;
/** When the cleaner came on in each round. */
const ON_S = [0, 1].map((n) => 300 + n * ROUND_S + 1320);
const log = (windows: Run["windows"]) => stagedRun(0, "full_log", STAGES, 21, { windows });
const resultOf = (windows: Run["windows"]): BandResult => massOf(analyseTrial(trialOf([log(windows)])));
const said = ({ findings }: BandResult) => findings.find(({ code }) => code === "window-fixed-by-hand");

const window = (n: number, fromS = ON_S[n]! + 60, toS = ON_S[n]! + 900) => ({ phase: "total" as const, n, fromS, toS });

describe("windows fixed by hand", () => {
  test("one of several phases replaces that phase's automatic windows, with the automatic rate beside it", () => {
    const automatic = resultOf([]);
    const fixed = resultOf([window(0), window(1)]);
    expect(said(automatic)).toBeUndefined();
    expect(fixed.total.decays.map(({ window: { fromS, toS, why } }) => [fromS, toS, why])).toEqual(
      [0, 1].map((n) => [ON_S[n]! + 60, ON_S[n]! + 900, "fixed by hand"]),
    );
    expect(fixed.natural.decays.map(({ window: { why } }) => why)).not.toContain("fixed by hand");
    // The prior of the floor moves a little with the other fits.
    const first = automatic.total.decays[0]!.kPerH;
    expect(Math.abs(said(fixed)!.value! - first.value)).toBeLessThan(0.2 * first.u);
  });

  test("n counts the phase's windows: the second alone stands beside the second automatic one", () => {
    const automatic = resultOf([]).total.decays[1]!.kPerH;
    const { total, ...rest } = resultOf([window(1)]);
    expect(total.decays).toHaveLength(1);
    expect(Math.abs(said({ total, ...rest })!.value! - automatic.value)).toBeLessThan(0.2 * automatic.u);
  });

  test("where the log shows no automatic window there is none beside it", () => {
    expect(said(resultOf([{ ...window(0), n: 7 }]))!.value).toBeNull();
  });

  test("across a switch-on it is the submitter's word: fitted as asked, and the rate that would have been found is told", () => {
    const wrong = resultOf([window(0, ON_S[0]! - 900, ON_S[0]! + 900)]);
    expect(wrong.total.kPerH.value).toBeLessThan(0.9 * K_TOTAL);
    expect(Math.abs(said(wrong)!.value! / K_TOTAL - 1)).toBeLessThan(0.05);
  });
});
