import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { interval95 } from "../../analysis/estimate.ts";
import { METHOD_VERSION } from "../../analysis/method-version.ts";
import type { Run } from "../../analysis/trial.ts";
import {
  background,
  CLEAN,
  codes,
  FLOOR,
  fullLog,
  K_NATURAL,
  K_TOTAL,
  massOf,
  natural,
  ON_S,
  phaseRun,
  total,
} from "./test-runs.ts";
import { COUNTER, trialOf } from "./trial-of.ts";

describe("paired runs", () => {
  const analysis = analyseTrial(trialOf([background(), natural(), total()]));
  const result = massOf(analysis);

  test("give V·(k_total − k_natural) with an interval that holds the truth", () => {
    const { low, high } = interval95(result.cadrM3PerH);
    expect(low).toBeLessThan(150);
    expect(high).toBeGreaterThan(150);
    expect(result.cadrM3PerH.u / result.cadrM3PerH.value).toBeLessThan(0.04);
    expect(result.cadrM3PerH.value).toBeCloseTo(30 * result.kDifferencePerH.value, 9);
    expect(result.kDifferencePerH.value).toBeCloseTo(result.total.kPerH.value - result.natural.kPerH.value, 12);
    expect([result.paired, result.natural.source, analysis.methodVersion]).toEqual([true, "measured", METHOD_VERSION]);
  });

  test("list the standard band before the channel it is made of", () => {
    expect(analysis.results.map(({ band }) => band.name)).toEqual(["mass", "c1/pm2.5"]);
    expect(analysis.refusals).toEqual([]);
  });

  test("share the variance out completely", () => {
    expect(result.budget.map(({ source }) => source).slice(0, 3)).toEqual(["volume", "total_fit", "natural_fit"]);
    expect(result.budget.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    // What both decays share is taken off, the rest adds up.
    const variance = result.budget.reduce((sum, { u, share }) => sum + Math.sign(share) * u ** 2, 0);
    expect(Math.sqrt(variance)).toBeCloseTo(result.cadrM3PerH.u, 10);
  });
});

describe("laws", () => {
  const changed = (f: (run: Run) => Run) =>
    massOf(analyseTrial(trialOf([background(), natural(), total()].map(f)))).kDifferencePerH;
  const values = (run: Run, f: (v: number) => number): Run => ({
    ...run,
    series: { ...run.series, channels: run.series.channels.map((c) => ({ ...c, values: c.values.map(f) })) },
  });
  const same = changed((run) => run);

  test.each([1e-6, 7.3, 1e6])("k does not depend on the unit of concentration (×%d)", (factor) => {
    const scaled = changed((run) => values(run, (v) => v * factor));
    expect(scaled.value / same.value).toBeCloseTo(1, 7);
    expect(scaled.u / same.u).toBeCloseTo(1, 6);
  });

  test("nor on where the clock starts, nor on rows sent newest first", () => {
    const later = changed((run) => ({ ...run, series: { ...run.series, tS: run.series.tS.map((t) => t + 5000) } }));
    expect(later.value).toBeCloseTo(same.value, 9);
    const reversed = changed((run) => ({
      ...values(run, (v) => v),
      series: {
        ...run.series,
        tS: run.series.tS.toReversed(),
        channels: run.series.channels.map((c) => ({ ...c, values: c.values.toReversed() })),
      },
    }));
    expect(reversed.value).toBeCloseTo(same.value, 12);
  });
});

describe("a full log", () => {
  test("without marks shows its phases and the cleaner coming on", () => {
    const analysis = analyseTrial(trialOf([fullLog(K_TOTAL)]));
    expect(analysis.phases.map(({ phase }) => phase)).toEqual(["background", "natural", "total"]);
    const [lead, before, after] = analysis.phases;
    expect(lead!.toS).toBeLessThan(185);
    expect(before!.fromS).toBeGreaterThan(290);
    expect(Math.abs(before!.toS - ON_S)).toBeLessThan(60);
    expect(after!.fromS).toBeGreaterThan(ON_S - 5);
    expect(after!.fromS).toBeLessThan(ON_S + 90);
    const { low, high } = interval95(massOf(analysis).cadrM3PerH);
    expect(low < 150 && 150 < high).toBe(true);
  });

  test("with marks takes them at their word", () => {
    const marks = [
      { event: "cleaner_on" as const, tS: ON_S },
      { event: "cleaner_off" as const, tS: 2400 },
    ];
    const { phases } = analyseTrial(trialOf([fullLog(K_TOTAL, 4, { marks })]));
    expect(phases[1]!.toS).toBe(ON_S);
    expect(phases[2]!.fromS).toBeGreaterThan(ON_S);
    expect(phases[2]!.toS).toBe(2400);
  });

  test("a setting changed ends what is stated", () => {
    const marks = [{ event: "setting_changed" as const, tS: 2300 }];
    expect(analyseTrial(trialOf([fullLog(K_TOTAL, 4, { marks })])).phases.at(-1)!.toS).toBe(2300);
  });

  test("cut off before the cleaner came on gives no rate and asks for a mark", () => {
    const log = fullLog(K_TOTAL);
    const analysis = analyseTrial(trialOf([{ ...log, series: { ...log.series, cropToS: ON_S - 30 } }]));
    expect(analysis.results).toEqual([]);
    expect(analysis.refusals).toContainEqual(expect.objectContaining({ run: 0, code: "no-switch-on" }));
  });

  test("whose cleaner does nothing shows no corner", () => {
    const analysis = analyseTrial(trialOf([fullLog(K_NATURAL)]));
    expect(analysis.refusals).toContainEqual(expect.objectContaining({ code: "no-switch-on" }));
  });

  test("windows fixed by the submitter replace the automatic ones and are named", () => {
    const windows = [{ phase: "total" as const, n: 0, fromS: 1600, toS: 2200 }];
    const analysis = analyseTrial(trialOf([fullLog(K_TOTAL, 4, { windows })]));
    const { window } = massOf(analysis).total;
    expect([window.fromS, window.toS]).toEqual([1600, 2200]);
    const automatic = massOf(analyseTrial(trialOf([fullLog(K_TOTAL)]))).total.kPerH.value;
    const byHand = massOf(analysis).findings.find(({ code }) => code === "window-fixed-by-hand");
    expect(byHand?.value).toBeCloseTo(automatic, 6);
  });
});

describe("natural loss", () => {
  test("on another day or under another fan is not paired and adds 15 % of itself", () => {
    const day = 24 * 3600 * 1000;
    const other = analyseTrial(trialOf([background(), natural({ startMs: 0 }), total({ startMs: day })]));
    expect(massOf(other).natural.source).toBe("other_day");
    const fan = analyseTrial(trialOf([background(), natural({ mixingFan: "off" }), total()]));
    for (const [analysis, code] of [
      [other, "natural-other-day"],
      [fan, "conditions-differ"],
    ] as const) {
      const result = massOf(analysis);
      expect(result.paired).toBe(false);
      const part = result.budget.find(({ source }) => source === code);
      expect(part?.u).toBeCloseTo(30 * 0.15 * result.natural.kPerH.value, 9);
    }
  });

  test("not measured is assumed, said so, and widens the interval", () => {
    const result = massOf(analyseTrial(trialOf([background(), total()])));
    expect(result.natural).toMatchObject({ source: "assumed", kPerH: { value: 0.6, u: 0.36 }, decays: [] });
    expect(result.findings.map(({ code }) => code)).toContain("assumed-natural-loss");
  });
});

describe("several runs and counters", () => {
  test("repeats are pooled and each is listed", () => {
    const again = phaseRun(3, "total", K_TOTAL, FLOOR, 9);
    const one = massOf(analyseTrial(trialOf([background(), natural(), total()])));
    const two = massOf(analyseTrial(trialOf([background(), natural(), total(), again])));
    expect(two.total.decays.map(({ run }) => run)).toEqual([2, 3]);
    expect(two.total.kPerH.u).toBeLessThan(one.total.kPerH.u);
  });

  test("two counters that differ lend the result their spread", () => {
    const second = { ...COUNTER, id: "c2" };
    const onSecond = [
      phaseRun(3, "background", 0, CLEAN, 11, { counter: "c2" }),
      phaseRun(4, "natural", K_NATURAL, CLEAN, 12, { counter: "c2" }),
      phaseRun(5, "total", 1.12 * K_TOTAL, FLOOR, 13, { counter: "c2" }),
    ];
    const analysis = analyseTrial(trialOf([background(), natural(), total(), ...onSecond], [COUNTER, second]));
    const result = massOf(analysis);
    expect(codes(analysis)).toContain("counters-spread");
    expect(result.budget.find(({ source }) => source === "counters")!.share).toBeGreaterThan(0.5);
    expect(result.total.kPerH.value).toBeGreaterThan(K_TOTAL);
    expect(result.total.kPerH.value).toBeLessThan(1.12 * K_TOTAL);
  });
});
