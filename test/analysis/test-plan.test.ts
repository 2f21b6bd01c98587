import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { AnalysisError } from "../../analysis/analysis-error.ts";
import { MOST_MINUTES, type PlanQuestion, planTrialFrom } from "../../analysis/planned-trial.ts";
import type { CounterModel, Scenario } from "../../analysis/simulate/scenario.ts";
import { simulateRuns } from "../../analysis/simulate/simulate-log.ts";
import { planTest } from "../../analysis/test-plan.ts";
import { seededNoise } from "./simulated-decay.ts";
import { COUNTER, runOf, trialOf } from "./trial-of.ts";

const QUESTION: PlanQuestion = {
  volumeM3: { value: 30, u: 0.3, dof: Infinity },
  cadrM3PerH: 240,
  wantedUM3PerH: 5,
  intervalS: 10,
  counter: {
    principle: "optical_counter",
    weighs: false,
    smoothing: null,
    maxConcentrationPerCm3: null,
    noise: { white: 0.01, memory: 0.02, memoryTimeS: 60, countsInCleanAir: 100 },
  },
  ventilation: "off",
  naturalPerH: 0.5,
  cleanAirPerCm3: null,
};
const question = (changes: Partial<PlanQuestion> = {}): PlanQuestion => ({ ...QUESTION, ...changes });
const withNoise = (changes: Partial<PlanQuestion["counter"]["noise"]>) => ({
  ...QUESTION.counter,
  noise: { ...QUESTION.counter.noise, ...changes },
});

/** A clean-air level of 5 /cm³ or µg/m³ in every simulated room. */
const CLEAN = 5;

interface Kind {
  readonly name: string;
  readonly question: PlanQuestion;
  readonly start: number;
  readonly minutes: number;
  readonly naturalMinutes: number;
}

const KINDS: Kind[] = [
  { name: "a common room and cleaner", question: question(), start: 100, minutes: 25, naturalMinutes: 30 },
  {
    name: "a slow cleaner in a large room, once a minute, few counts",
    question: question({
      volumeM3: { value: 80, u: 1.6, dof: Infinity },
      cadrM3PerH: 120,
      intervalS: 60,
      counter: withNoise({ memory: 0.03, memoryTimeS: 90, countsInCleanAir: 5 }),
    }),
    start: 60,
    minutes: 60,
    naturalMinutes: 60,
  },
  {
    name: "a counter that weighs, in steps, little smoke",
    question: question({
      cadrM3PerH: 180,
      counter: {
        ...withNoise({ white: 0.01, memory: 0.01, countsInCleanAir: null }),
        weighs: true,
        principle: "photometer",
      },
    }),
    start: 40,
    minutes: 20,
    naturalMinutes: 40,
  },
];

/**
 * k_total − k_natural of simulated trials as the analysis finds it [1/h]. The floor of each decay strays from what the
 * reading of the clean air says of it by as much as the fit's priors allow: ± 30 % with the cleaner off, as much as
 * itself with it on.
 */
function simulatedDifferences({ question: q, start, minutes, naturalMinutes }: Kind, trials: number): number[] {
  const { weighs, noise } = q.counter;
  const counter: CounterModel = {
    intervalS: q.intervalS,
    channels: [
      weighs
        ? { id: "pm2.5", quantity: "mass", unit: "ug/m3", fromUm: null, toUm: 2.5, cumulative: "below" }
        : { id: "n1", quantity: "number", unit: "1/cm3", fromUm: 0.3, toUm: 1, cumulative: "none" },
    ],
    noise: { white: noise.white!, ouSd: noise.memory!, ouTauS: noise.memoryTimeS! },
    step: weighs ? 0.02 * CLEAN : null,
    ceiling: null,
    smoothing: null,
    sampleVolumeCm3: weighs ? null : noise.countsInCleanAir! / CLEAN,
  };
  // A mass channel shows a µg/m³ for every particle of this size and density.
  const unitMass = 1 / ((Math.PI / 6) * 0.3);
  const random = seededNoise(7);
  return Array.from({ length: trials }, (_, i) => {
    const scenario = (backgroundPerCm3: number): Omit<Scenario, "schedule"> => ({
      seed: i + 1,
      room: { volumeM3: q.volumeM3.value, kNaturalPerH: q.naturalPerH! },
      cleaner: { cadrM3PerH: q.cadrM3PerH },
      aerosol: {
        startPerCm3: start * CLEAN,
        backgroundPerCm3,
        densityGPerCm3: weighs ? unitMass / Math.sqrt(0.3) : 1,
        sizes: [{ fromUm: 0.3, toUm: 1, share: 1 }],
      },
      counter,
    });
    const lengths = { background: 600, natural: 60 * naturalMinutes, total: 60 * minutes };
    const logs = {
      background: simulateRuns(scenario(CLEAN), lengths).background,
      natural: simulateRuns(scenario(CLEAN * Math.max(0, 1 + 0.3 * random.normal())), lengths).natural,
      total: simulateRuns(scenario(-CLEAN * Math.log(1 - random.uniform())), lengths).total,
    };
    const runs = (["background", "natural", "total"] as const).map((role, n) =>
      runOf(n, role, logs[role].series.tS, logs[role].series.channels),
    );
    const { principle, smoothing } = q.counter;
    const trial = trialOf(runs, [{ ...COUNTER, principle, smoothing }], q.volumeM3.value, q.volumeM3.u);
    return analyseTrial(trial).results[0]!.kDifferencePerH.value;
  });
}

const TRIALS = 120;
test.each(KINDS)(
  `u of the fits expected of $name is the spread of ${TRIALS} analysed trials within a factor 1.3`,
  (kind) => {
    const found = simulatedDifferences(kind, TRIALS);
    const mean = found.reduce((sum, k) => sum + k, 0) / TRIALS;
    const spread = Math.sqrt(found.reduce((sum, k) => sum + (k - mean) ** 2, 0) / (TRIALS - 1));
    const planned = planTrialFrom(kind.question, kind.start).at(kind.minutes, kind.naturalMinutes).kDifferencePerH;
    expect(planned.value).toBeCloseTo(kind.question.cadrM3PerH / kind.question.volumeM3.value, 9);
    expect(spread / planned.u).toBeGreaterThan(1 / 1.3);
    expect(spread / planned.u).toBeLessThan(1.3);
  },
);

describe("the expected u", () => {
  test.each([...KINDS, { ...KINDS[0]!, question: question({ intervalS: 0.7 }) }])(
    "never rises with more minutes: $name, every $question.intervalS s",
    ({ question: q, start }) => {
      const trial = planTrialFrom(q, start);
      const lengths = [1, 2, 3, 5, 7.5, 10, 20, 30, 45, 60, 120, MOST_MINUTES].map((m) => m + 5);
      const total = lengths.map((minutes) => trial.at(minutes, 60).cadrM3PerH.u);
      const natural = lengths.map((minutes) => trial.at(30, minutes).cadrM3PerH.u);
      for (const us of [total, natural]) {
        us.slice(1).forEach((u, i) => {
          expect(u).toBeLessThanOrEqual(us[i]!);
        });
        expect(us.at(-1)!).toBeLessThan(0.9 * us[0]!);
      }
    },
  );

  test("grows with the memory of the noise: white noise of the same size averages out, that with a memory does not", () => {
    const us = [0, 60, 300].map((memoryTimeS) => {
      const counter = withNoise(memoryTimeS === 0 ? { memory: 0, white: 0.0224 } : { memoryTimeS });
      return planTrialFrom(question({ counter }), 100).at(20, 20).kDifferencePerH.u;
    });
    expect(us[1]).toBeGreaterThan(1.5 * us[0]!);
    expect(us[2]).toBeGreaterThan(1.2 * us[1]!);
  });

  test("of white noise alone is that of the log-linear slope, σ/√Σ(t−t̄)², where the background is as good as known", () => {
    const counter = withNoise({ memory: 0, white: 0.03, countsInCleanAir: 1e9 });
    const q = question({ cadrM3PerH: 60, naturalPerH: 0.5, counter });
    const uTotal =
      planTrialFrom(q, 1e7)
        .at(20 + 20 / 60, 240)
        .budget.find(({ source }) => source === "total_fit")!.u / 30;
    const [n, stepH] = [121, 10 / 3600];
    expect(uTotal).toBeCloseTo(0.03 / Math.sqrt((stepH ** 2 * n * (n * n - 1)) / 12), 4);
  });
});

describe("the plan", () => {
  test("keeps what it promises, and is the shortest that does", () => {
    const plan = planTest(question());
    expect(plan).toMatchObject({ reachable: true, trials: 1 });
    expect(plan.expected.cadrM3PerH.u).toBeLessThanOrEqual(5);
    const trial = planTrialFrom(question(), plan.startOverBackground);
    expect(trial.at(plan.minutes, plan.naturalMinutes).cadrM3PerH.u).toBe(plan.expected.cadrM3PerH.u);
    for (let minutes = trial.leastMinutes; minutes < plan.minutes + plan.naturalMinutes - 1; minutes++) {
      const natural = plan.minutes + plan.naturalMinutes - 1 - minutes;
      if (natural >= trial.leastNaturalMinutes) expect(trial.at(minutes, natural).cadrM3PerH.u).toBeGreaterThan(5);
    }
  });

  test("is longer for a smaller u, until the volume's own u puts it out of reach", () => {
    const total = (wantedUM3PerH: number) => {
      const plan = planTest(question({ wantedUM3PerH }));
      expect(plan.reachable).toBe(true);
      return plan.minutes + plan.naturalMinutes;
    };
    expect(total(5)).toBeGreaterThan(total(8));
    expect(total(3.5)).toBeGreaterThan(total(5));

    const out = planTest(question({ wantedUM3PerH: 2.3 })); // the volume alone makes 240 · 0.3/30 = 2.4
    expect(out).toMatchObject({ reachable: false, dominant: "volume", trials: null });
    expect(out.volumeUNeededM3).toBeLessThan(0.3);
    const better = { ...QUESTION.volumeM3, u: 0.99 * out.volumeUNeededM3! };
    expect(planTest(question({ wantedUM3PerH: 2.3, volumeM3: better })).reachable).toBe(true);
  });

  test("counts the trials it takes where one is not enough but the volume would do", () => {
    const counter = withNoise({ memory: 0.1, memoryTimeS: 120 });
    const plan = planTest(question({ counter }));
    expect(plan.reachable).toBe(false);
    expect(plan.trials).toBeGreaterThan(1);
    const volume = plan.expected.budget[0]!.u;
    const fits = 30 * plan.expected.kDifferencePerH.u;
    expect(Math.hypot(volume, fits / Math.sqrt(plan.trials!))).toBeLessThanOrEqual(5);
    expect(Math.hypot(volume, fits / Math.sqrt(plan.trials! - 1))).toBeGreaterThan(5);
  });

  test("half-widths under 4 % of CADR are mostly volume, at 1 % of it", () => {
    expect(planTest(question({ wantedUM3PerH: 0.012 * 240 })).dominant).toBe("volume");
    expect(planTest(question({ wantedUM3PerH: 0.05 * 240 })).dominant).not.toBe("volume");
  });

  test("starts with less aerosol where the counter or coagulation would suffer", () => {
    const counter = { ...QUESTION.counter, maxConcentrationPerCm3: 1000 };
    const free = planTest(question({ wantedUM3PerH: 3.2 })).startOverBackground;
    expect(free).toBeGreaterThan(30);
    expect(
      planTest(question({ wantedUM3PerH: 3.2, counter, cleanAirPerCm3: 8 })).startOverBackground,
    ).toBeLessThanOrEqual(25);
    expect(planTest(question({ wantedUM3PerH: 3.2, cleanAirPerCm3: 1000 })).startOverBackground).toBeLessThanOrEqual(
      32,
    );
  });

  test("is none where too few readings are left, or the level never halves", () => {
    const code = (changes: Partial<PlanQuestion>) => {
      try {
        planTest(question(changes));
      } catch (error) {
        return error instanceof AnalysisError ? error.code : error;
      }
      return null;
    };
    expect(code({ cadrM3PerH: 3000, intervalS: 60 })).toBe("too-short");
    expect(code({ cadrM3PerH: 1e9 })).toBe("too-short");
    expect(code({ cadrM3PerH: 0.1, naturalPerH: 0.01 })).toBe("less-than-one-halving");
  });
});
