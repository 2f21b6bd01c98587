import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import type { BandResult } from "../../analysis/analysis.ts";
import { interval95 } from "../../analysis/estimate.ts";
import { logLinearFit } from "../../analysis/log-linear-fit.ts";
import { coagulating } from "../../analysis/simulate/coagulating.ts";
import type { CounterModel, Scenario } from "../../analysis/simulate/scenario.ts";
import { simulateRuns } from "../../analysis/simulate/simulate-log.ts";
import { type RoomPhysics, wellMixed } from "../../analysis/simulate/well-mixed.ts";
import type { Channel, Counter } from "../../analysis/trial.ts";
import { COUNTER, runOf, trialOf } from "./trial-of.ts";

/*
 * What a plain log-linear fit gets wrong (pinned-physics.test.ts), given to the analysis as a submitter would state it: it
 * must take the error out, or say so and widen its interval until the truth lies inside.
 */

const VOLUME = 30;
const TRIALS = 20;
/** Of 20 intervals of 95 % fewer than 17 hold in 1.6 % of such tests. */
const LEAST_HELD = 17;

interface Mechanism {
  readonly startPerCm3: number;
  readonly backgroundPerCm3?: number;
  /** 0.3 and 5 /h where not said. */
  readonly kNaturalPerH?: number;
  readonly kTotalPerH?: number;
  readonly channel?: Partial<Channel>;
  readonly counter?: Partial<CounterModel>;
  readonly stated?: Partial<Counter>;
  readonly physics?: RoomPhysics;
  readonly withoutBackgroundRun?: boolean;
}

/** Background, natural and total runs of half an hour, a reading in ten seconds; the volume is all but exact. */
function analysed(mechanism: Mechanism, seed: number): { result: BandResult; lineCadr: number; truth: number } {
  const { kNaturalPerH = 0.3, kTotalPerH = 5 } = mechanism;
  const truth = VOLUME * (kTotalPerH - kNaturalPerH);
  const scenario: Omit<Scenario, "schedule"> = {
    seed,
    room: { volumeM3: VOLUME, kNaturalPerH },
    cleaner: { cadrM3PerH: truth },
    aerosol: {
      startPerCm3: mechanism.startPerCm3,
      backgroundPerCm3: mechanism.backgroundPerCm3 ?? 0,
      densityGPerCm3: 1,
      sizes: [{ fromUm: 0.1, toUm: 1, share: 1 }],
    },
    counter: {
      intervalS: 10,
      channels: [
        {
          id: "n",
          quantity: "number",
          unit: "1/cm3",
          fromUm: 0.1,
          toUm: 1,
          cumulative: "none",
          ...mechanism.channel,
        },
      ],
      noise: { white: 0.003, ouSd: 0.01, ouTauS: 30 },
      step: null,
      ceiling: null,
      smoothing: null,
      sampleVolumeCm3: null,
      ...mechanism.counter,
    },
  };
  const logs = simulateRuns(scenario, { background: 600, natural: 1800, total: 1800 }, mechanism.physics ?? wellMixed);
  const roles = (["background", "natural", "total"] as const).slice(mechanism.withoutBackgroundRun ? 1 : 0);
  const runs = roles.map((role, i) => runOf(i, role, logs[role].series.tS, logs[role].series.channels));
  const { results } = analyseTrial(trialOf(runs, [{ ...COUNTER, ...mechanism.stated }], VOLUME, 1e-3));
  const line = ({ tS, channels }: (typeof logs)["total"]["series"]) =>
    logLinearFit(
      tS.map((t) => t / 3600),
      channels[0]!.values,
    ).kPerH;
  const lineCadr = VOLUME * (line(logs.total.series) - line(logs.natural.series));
  return { result: results.find(({ band }) => band.name === "0.1-1.0")!, lineCadr, truth };
}

function seen(mechanism: Mechanism) {
  const all = Array.from({ length: TRIALS }, (_, i) => analysed(mechanism, 100 + i));
  const held = all.filter(({ result, truth }) => {
    const { low, high } = interval95(result.cadrM3PerH);
    return low <= truth && truth <= high;
  }).length;
  const bias = (of: (a: (typeof all)[number]) => number) =>
    all.reduce((sum, a) => sum + of(a) / a.truth - 1, 0) / all.length;
  return {
    held,
    bias: bias(({ result }) => result.cadrM3PerH.value),
    lineBias: bias(({ lineCadr }) => lineCadr),
    findings: new Set(all.flatMap(({ result }) => result.findings.map(({ code }) => code))),
  };
}

describe("coagulation is told and covered", () => {
  test.each([1e4, 1e5, 1e6])("from %s /cm³", (startPerCm3) => {
    const { held, lineBias, findings } = seen({ startPerCm3, physics: coagulating(7e-10) });
    expect(held).toBeGreaterThanOrEqual(LEAST_HELD);
    expect(findings.has("coagulation")).toBe(startPerCm3 > 1e4);
    expect(lineBias).toBeLessThan(-0.002);
  });
});

describe("dead time is taken out where flow and dead time are stated", () => {
  test.each([0.05, 0.1, 0.2])("a loss of %s at the start", (loss) => {
    const deadTime = { flowCm3PerS: 50, deadTimeS: -Math.log(1 - loss) / 50 / 1000 };
    const stated = { sampleFlowCm3PerS: deadTime.flowCm3PerS, deadTimeS: deadTime.deadTimeS };
    const { held, bias, lineBias } = seen({ startPerCm3: 1000, counter: { deadTime }, stated });
    expect(held).toBeGreaterThanOrEqual(LEAST_HELD);
    expect(Math.abs(bias)).toBeLessThan(0.006);
    expect(lineBias).toBeLessThan(-0.2 * loss);
  });
});

describe("smoothing is waited out where it is stated", () => {
  test.each([
    { kind: "lag", timeS: 60 },
    { kind: "lag", timeS: 120 },
    { kind: "moving_mean", timeS: 120 },
  ] as const)("$kind of $timeS s", (smoothing) => {
    const { held, bias, lineBias } = seen({ startPerCm3: 1000, counter: { smoothing }, stated: { smoothing } });
    expect(held).toBeGreaterThanOrEqual(LEAST_HELD);
    expect(Math.abs(bias)).toBeLessThan(0.008);
    expect(lineBias).toBeLessThan(-0.004);
  });
});

describe("a background is fitted, with a reading of it and without", () => {
  // Half of the clean-air level is left under a cleaner that doubles the loss.
  test.each([
    [0.01, false],
    [0.05, false],
    [0.1, false],
    [0.01, true],
    [0.05, true],
    [0.1, true],
  ])("a floor of %s of the start; without a background run: %s", (share, withoutBackgroundRun) => {
    const rates = { kNaturalPerH: 3, kTotalPerH: 6 };
    const { held, bias, lineBias } = seen({
      ...rates,
      startPerCm3: 1000,
      backgroundPerCm3: 2000 * share,
      withoutBackgroundRun,
    });
    expect(held).toBeGreaterThanOrEqual(LEAST_HELD);
    expect(Math.abs(bias)).toBeLessThan(0.01);
    expect(lineBias).toBeLessThan(-0.05);
  });
});

test.each([60, 120])("an undeclared lag of %s s stays inside the interval", (timeS) => {
  const { held, bias } = seen({ startPerCm3: 1000, counter: { smoothing: { kind: "lag", timeS } } });
  expect(held).toBeGreaterThanOrEqual(LEAST_HELD);
  expect(bias).toBeLessThan(timeS === 60 ? -0.004 : -0.015); // it is there
});

test.each([10, 20, 100])("%s counts a reading are fitted as counts", (startPerCm3) => {
  const channel = { quantity: "raw", unit: "1" } as const;
  const { held, bias, lineBias } = seen({ startPerCm3, channel, counter: { sampleVolumeCm3: 1, step: 1 } });
  expect(held).toBeGreaterThanOrEqual(LEAST_HELD);
  expect(Math.abs(bias)).toBeLessThan(startPerCm3 === 10 ? 0.1 : 0.03);
  // Logarithms of few counts are low, and those of none are missing: the line is off where the fit is not.
  if (startPerCm3 > 10) expect(Math.abs(lineBias)).toBeGreaterThan(Math.max(0.01, 2 * Math.abs(bias)));
});
