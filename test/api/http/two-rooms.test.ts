import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { simulateRuns } from "../../../analysis/simulate/simulate-log.ts";
import { newKey, store } from "../../support/client.ts";
import { SAMPLE_CONFIGURATION, sampleScenario, sampleTrial, sentSeries } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

const CADR_M3_PER_H = 200;
const K_NATURAL_PER_H = 0.4;
const ROLES = ["background", "natural", "total"] as const;

/** One cleaner in a room of this volume, the room losing particles by itself at the same rate in both. */
function trialIn(volumeM3: number, label: string, seed: number) {
  const { schedule: _, ...scenario } = sampleScenario(seed);
  const runs = simulateRuns(
    { ...scenario, room: { volumeM3, kNaturalPerH: K_NATURAL_PER_H }, cleaner: { cadrM3PerH: CADR_M3_PER_H } },
    { background: 600, natural: 3600, total: 2400 },
  );
  return sampleTrial(seed, {
    configuration: { ...SAMPLE_CONFIGURATION, arrangement: "carried from room to room" },
    room: { label, volume: { value: volumeM3, unit: "m3", u: 0.01 * volumeM3 }, ventilation: "off", mixing_fan: "on" },
    runs: ROLES.map((role) => ({ role, series: sentSeries(runs[role].series) })),
  });
}

describe.each(targets())("one cleaner in two rooms: $name", ({ start }) => {
  let target: Target;
  beforeAll(async () => {
    target = await start();
  });
  afterAll(() => target.stop());

  test("half-lives differ about as the volumes, clean air delivery rates agree", async () => {
    const key = await newKey(target);
    const small = await store(target, key, trialIn(15, "Drying room", 9101));
    const large = await store(target, key, trialIn(80, "Print hall", 9102));
    const [first, second] = [small, large].map(
      ({ analysis }) => analysis.results.find((r) => r.band.name === "0.1-1.0")!,
    );
    const ratio = second!.total.half_life!.value / first!.total.half_life!.value;
    const expected = (K_NATURAL_PER_H + CADR_M3_PER_H / 15) / (K_NATURAL_PER_H + CADR_M3_PER_H / 80);
    expect(ratio / expected).toBeGreaterThan(0.95);
    expect(ratio / expected).toBeLessThan(1.05);
    expect(ratio / (80 / 15)).toBeGreaterThan(0.8);
    expect(ratio).toBeLessThan(80 / 15);
    for (const { cadr } of [first!, second!]) {
      expect(cadr.low).toBeLessThan(CADR_M3_PER_H);
      expect(cadr.high).toBeGreaterThan(CADR_M3_PER_H);
    }
    const apart = Math.abs(first!.cadr.value - second!.cadr.value) / Math.hypot(first!.cadr.u, second!.cadr.u);
    expect(apart).toBeLessThan(2.5);
  });
});
