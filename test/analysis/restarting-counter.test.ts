import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { cleanChannel } from "../../analysis/clean-channel.ts";
import { poisson } from "../../analysis/simulate/poisson.ts";
import { createRandom } from "../../analysis/simulate/random.ts";
import { asCounted, decay, everyS, QUIET, seededNoise } from "./simulated-decay.ts";
import { fullLog, K_NATURAL, massOf, natural, ON_S } from "./test-runs.ts";
import { trialOf } from "./trial-of.ts";

/** The rows of a log from a time on in which the counter starts anew and writes zeros. */
function restartedAt(atS: number, rows: number) {
  const run = fullLog(5.4);
  const values = run.series.channels[0]!.values.slice();
  const first = run.series.tS.findIndex((t) => t >= atS);
  values.fill(0, first, first + rows);
  const channels = [{ ...run.series.channels[0]!, values }];
  return { ...run, series: { ...run.series, channels } };
}

describe("a counter that starts anew within a log", () => {
  const sound = massOf(analyseTrial(trialOf([fullLog(5.4)])));

  test.each([
    ["the natural decay", ON_S - 600],
    ["the decay with the cleaner on", ON_S + 90],
    ["its later part", ON_S + 600],
  ])("zeros in %s are left out and change next to nothing", (_, atS) => {
    const analysis = analyseTrial(trialOf([restartedAt(atS, 4)]));
    expect(analysis.refusals).toEqual([]);
    expect(analysis.dropped).toContainEqual({ run: 0, channel: "mass", reason: "restart", count: 4 });
    const { value, u } = massOf(analysis).kDifferencePerH;
    expect(Math.abs(value - sound.kDifferencePerH.value)).toBeLessThan(0.5 * u);
  });

  test("zeros that a decay comes down to stay", () => {
    const tS = everyS(10, 7200);
    const values = asCounted(tS, decay(500, 8, 0), { ...QUIET, step: 1 }, seededNoise(5));
    expect(values.filter((v) => v === 0).length).toBeGreaterThan(100);
    const { dropped } = cleanChannel({ tS, values, clipped: new Uint8Array(tS.length), quantity: "mass" });
    expect(dropped.has("restart")).toBe(false);
  });

  test("zeros beside noise about zero stay where no step is seen", () => {
    const tS = everyS(10, 3600);
    const { normal } = seededNoise(6);
    const truth = decay(500, 8, 0);
    const values = tS.map((t) => Math.max(0, truth(t) + 2 * normal()));
    const { readings, dropped } = cleanChannel({ tS, values, clipped: new Uint8Array(tS.length), quantity: "mass" });
    expect(readings.stepQ).toBe(0);
    expect(dropped.has("restart")).toBe(false);
  });

  test("zeros of few weighted counts stay", () => {
    const tS = everyS(10, 1800);
    const random = createRandom(8, 0);
    const values = tS.map(() => poisson(random, 3) + 0.1372 * poisson(random, 0.5) * (1 + 0.3 * random.uniform()));
    const clean = { tS, values, clipped: new Uint8Array(tS.length), quantity: "raw" as const };
    expect(cleanChannel({ ...clean, quantity: "mass" }).dropped.has("restart")).toBe(true);
    expect(cleanChannel(clean).dropped.has("restart")).toBe(false);
  });

  test("a natural run with such rows keeps its rate", () => {
    const run = natural();
    const channel = run.series.channels[0]!;
    const values = channel.values.slice();
    values.fill(0, 60, 63);
    const restarted = { ...run, series: { ...run.series, channels: [{ ...channel, values }] } };
    const [found] = analyseTrial(trialOf([restarted])).naturals;
    expect(Math.abs(found!.kPerH.value - K_NATURAL)).toBeLessThan(3 * found!.kPerH.u);
  });
});
