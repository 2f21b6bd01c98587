import { expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { interval95 } from "../../analysis/estimate.ts";
import { asCounted, decay, everyS, seededNoise } from "./simulated-decay.ts";
import { massOf, natural } from "./test-runs.ts";
import { channelOf, runOf, trialOf } from "./trial-of.ts";

const TRIALS = 100;

/** Share of trials flagged, and share whose interval holds k_total: errors that last a quarter of a decay of k·T = 4. */
function quarterMemory(lengthS: number, stepS: number) {
  const kPerH = (4 / lengthS) * 3600;
  const tS = everyS(stepS, lengthS);
  let [flagged, held] = [0, 0];
  for (let seed = 1; seed <= TRIALS; seed++) {
    const noise = { sigma: 0.02, tauS: lengthS / 4, white: 0.003, step: 0.1 };
    const values = asCounted(tS, decay(1000, kPerH, 0.01), noise, seededNoise(40_000 + seed));
    const result = massOf(analyseTrial(trialOf([natural(), runOf(2, "total", tS, [channelOf(values)])])));
    const { low, high } = interval95(result.total.kPerH);
    if (low < kPerH && kPerH < high) held++;
    if (result.findings.some(({ code }) => code === "long-memory")) flagged++;
  }
  return { flagged: flagged / TRIALS, held: held / TRIALS };
}

test("errors that last minutes are told where the interval suffers from them, not where a decay is merely short", () => {
  const long = quarterMemory(2400, 10);
  expect(long.flagged).toBeGreaterThan(0.4);
  const short = quarterMemory(150, 1);
  expect(short.flagged).toBe(0);
  expect(short.held).toBeGreaterThan(0.93);
});
