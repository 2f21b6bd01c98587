import { expect, test } from "vitest";
import { median } from "../../analysis/median.ts";
import { prepareRun } from "../../analysis/prepare-run.ts";
import { createRandom } from "../../analysis/simulate/random.ts";
import type { Scenario } from "../../analysis/simulate/scenario.ts";
import { simulateLog } from "../../analysis/simulate/simulate-log.ts";
import { COUNTER, runOf } from "./trial-of.ts";

const LOGS = 60;
const ON_S = 2820;

/** A log of raw counts: 5 min clean, 2 min feed, 40 min natural, 33 min with the cleaner on. */
function countedLog(seed: number, startCounts: readonly [number, number]): Scenario {
  const random = createRandom(seed, 9);
  const between = (low: number, high: number) => low * (high / low) ** random.uniform();
  const kNatural = between(0.15, 1.2);
  const added = between(2, 8);
  const start = between(...startCounts);
  const channel = { id: "n", quantity: "raw", unit: "1", fromUm: 0.3, toUm: 0.5, cumulative: "none" } as const;
  return {
    seed,
    room: { volumeM3: 30, kNaturalPerH: kNatural },
    cleaner: { cadrM3PerH: 30 * added },
    aerosol: {
      startPerCm3: start,
      backgroundPerCm3: start * between(0.005, 0.05),
      densityGPerCm3: 1.5,
      sizes: [{ fromUm: 0.3, toUm: 0.5, share: 1 }],
    },
    counter: {
      intervalS: 10,
      channels: [channel],
      noise: { white: 0.003, ouSd: 0.01, ouTauS: 60 },
      step: null,
      ceiling: null,
      smoothing: null,
      sampleVolumeCm3: 1,
    },
    schedule: { cleanAirS: 300, feedS: 120, naturalS: 2400, totalS: 2000 },
  };
}

// A crossing of two lines is known better than one reading is: by √n, less what neighbours share.
test.each([
  [[40, 80] as const, 150],
  [[200, 1000] as const, 40],
])(`${LOGS} logs that start at %j counts: the switch-on lies within its u, and u is under %d s`, (counts, mostS) => {
  const found = Array.from({ length: LOGS }, (_, i) => {
    const { series } = simulateLog(countedLog(60_000 + i, counts));
    const run = runOf(0, "full_log", series.tS, series.channels);
    return prepareRun(run, COUNTER).timeline.cycles[0]!.switchOn;
  }).flatMap((switchOn) => (switchOn ? [switchOn] : []));
  expect(found.length).toBeGreaterThan(0.9 * LOGS);
  expect(found.filter(({ atS, uS }) => Math.abs(atS - ON_S) > Math.max(4 * uS, 30)).length).toBeLessThan(0.05 * LOGS);
  expect(median(found.map(({ uS }) => uS))).toBeLessThan(mostS);
});

test("the floor under the cleaner lies below the clean air: a mass counter without noise is dated without bias", () => {
  const errors = Array.from({ length: 30 }, (_, i) => {
    const scenario = countedLog(61_000 + i, [1000, 1000]);
    const { aerosol, counter } = scenario;
    const background = aerosol.startPerCm3 * (0.01 + 0.001 * i);
    const { series } = simulateLog({
      ...scenario,
      aerosol: { ...aerosol, backgroundPerCm3: background },
      counter: { ...counter, noise: { white: 1e-5, ouSd: 0, ouTauS: 60 }, step: 0.01, sampleVolumeCm3: null },
    });
    const channels = series.channels.map((channel) => ({ ...channel, quantity: "mass" as const, toUm: 2.5 }));
    return prepareRun(runOf(0, "full_log", series.tS, channels), COUNTER).timeline.cycles[0]!.switchOn!.atS - ON_S;
  });
  expect(Math.max(...errors.map(Math.abs))).toBeLessThan(4);
});
