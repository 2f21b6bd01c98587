import { expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { naturalPriorFromTotal, tailLevel, totalPriorFromNatural } from "../../analysis/background-priors.ts";
import { fitDecay } from "../../analysis/decay-fit.ts";
import type { BackgroundPrior } from "../../analysis/decay-model.ts";
import type { Readings } from "../../analysis/readings.ts";
import { asCounted, decay, everyS, seededNoise } from "./simulated-decay.ts";
import { background, massOf, natural, total } from "./test-runs.ts";
import { trialOf } from "./trial-of.ts";

function readingsOf(kPerH: number, floor: number, lengthS: number, seed: number): Readings {
  const tS = everyS(10, lengthS);
  const noise = { sigma: 0.004, tauS: 30, white: 0.001, step: 0.1 };
  const values = asCounted(tS, decay(1000, kPerH, floor), noise, seededNoise(seed));
  return { tS, values, clipped: new Uint8Array(tS.length), stepQ: 0.1, intervalS: 10, quantity: "mass" };
}

/** CADR's covariance by the shared background as the budget of a trial without a background run shows it, per V². */
function covarianceSeen(naturalRun: Readings, totalRun: Readings): number {
  const withValues = (run: ReturnType<typeof natural>, { tS, values }: Readings) => ({
    ...run,
    series: { ...run.series, tS, channels: run.series.channels.map((channel) => ({ ...channel, values })) },
  });
  const result = massOf(analyseTrial(trialOf([withValues(natural(), naturalRun), withValues(total(), totalRun)])));
  const part = result.budget.find(({ source }) => source === "shared_background")!;
  expect(part.share).toBeLessThan(0);
  return (part.u / 30) ** 2 / 2;
}

test("an unknown background moves both decays alike: the covariance is that of shifting what is believed of it", () => {
  // A natural run so short and quiet that what is believed of its background, not its noise, decides k.
  const naturalRun = readingsOf(0.4, 20, 900, 1);
  const totalRun = readingsOf(3.5, 20 / 7, 1500, 2);
  const first = fitDecay(totalRun, () => ({ mean: tailLevel(totalRun) / 2, sd: tailLevel(totalRun) / 2 })).kPerH.value;
  const believed = naturalPriorFromTotal(naturalRun, { tail: tailLevel(totalRun), kPerH: first });
  const shifted = (by: number): [number, number] => {
    const prior: BackgroundPrior = (k) => ({ ...believed(k), mean: believed(k).mean + by });
    const n = fitDecay(naturalRun, prior);
    const t = fitDecay(totalRun, totalPriorFromNatural(n.background, n.kPerH.value, totalRun));
    return [n.kPerH.value, t.kPerH.value];
  };
  const { sd } = believed(0.4);
  const [low, high] = [shifted(-0.005 * sd), shifted(0.005 * sd)];
  const expected = ((high[0] - low[0]) / 0.01) * ((high[1] - low[1]) / 0.01);
  expect(expected).toBeGreaterThan(0);
  // The noise of the natural run comes on top.
  expect(covarianceSeen(naturalRun, totalRun) / expected).toBeGreaterThan(0.95);
  expect(covarianceSeen(naturalRun, totalRun) / expected).toBeLessThan(1.35);
});

test("with clean air read well, the background shared is next to nothing", () => {
  const { budget } = massOf(analyseTrial(trialOf([background(), natural(), total()])));
  const share = budget.find(({ source }) => source === "shared_background")?.share ?? 0;
  expect(share).toBeLessThanOrEqual(0);
  expect(share).toBeGreaterThan(-0.05);
});
