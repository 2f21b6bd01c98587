import { afterAll, beforeAll, expect, test } from "vitest";
import { NoiseResults, SoundOut } from "../../../api/wire/sound.ts";
import { newKey, problemOf, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";

let target: InProcess;
let key: string;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target);
});
afterAll(() => target.stop());

const db = (value: number) => ({ value, unit: "dB(A)" });
const m = (value: number) => ({ value, unit: "m" });

test("a trial's noise is answered at 1 m, measured and stated apart, each reading by itself", async () => {
  const noise = [
    { quantity: "L_pA", level: db(46), background: db(30), distance: m(2), meter: "class_2" },
    { quantity: "L_pA", level: db(52), background: db(30), distance: m(1), meter: "class_2" },
    { quantity: "L_pA", level: db(40), background: db(36), distance: m(1), meter: "phone" },
    { quantity: "L_pA", level: db(40), background: db(39), distance: m(1), meter: "phone" },
    { quantity: "L_WA", level: db(57), meter: "stated_by_maker" },
  ];
  const { noise_results } = await store(target, key, sampleTrial(1, { noise }));
  const results = NoiseResults.strict().parse(noise_results);
  expect(results.measured?.value).toBeCloseTo(52.01, 1);
  expect(results.stated_by_maker?.value).toBeCloseTo(57 - 7.982, 3);
  expect(results.measured).toMatchObject({ unit: "dB", weighting: "A" });
  expect(results.readings.map(({ basis }) => basis)).toEqual([...new Array(4).fill("measured"), "stated_by_maker"]);
  expect(results.readings[0]!.at_1m?.value).toBeCloseTo(52.02, 2);
  expect(results.readings[2]).toMatchObject({ at_1m: { value: null, bound: "upper" }, background_correction: 1.3 });
  expect(results.readings[3]).toMatchObject({ at_1m: null, not_rated: "near-background" });
});

test("a trial without noise has none", async () => {
  expect((await store(target, key, sampleTrial(2))).noise_results).toBeNull();
});

test("a setting's stated noise is shown as it was stated, and at 1 m", async () => {
  const settings = [
    { label: "Low" },
    { label: "High", stated_noise: { quantity: "L_pA", level: db(40), distance: m(3) } },
  ];
  const configuration = { ...SAMPLE_CONFIGURATION, title: "Loud box", arrangement: "a loud one", settings };
  const stored = await store(target, key, sampleTrial(3, { configuration }));
  const answer = await target.request(`/v1/configurations/${stored.configuration.id}`);
  const shown = ((await answer.json()) as { settings: Record<string, unknown>[] }).settings;
  expect(shown[0]!.stated_noise_at_1m).toBeNull();
  expect(SoundOut.parse(shown[1]!.stated_noise_at_1m).value).toBeCloseTo(49.54, 2);
  expect(shown[1]!.stated_noise).toEqual({ quantity: "L_pA", level: db(40), distance: m(3) });

  settings[1]!.stated_noise = { quantity: "L_pA", level: db(40) } as never;
  const refused = await target.request(
    "/v1/trials",
    json(sampleTrial(4, { configuration: { ...configuration, settings } }), bearer(key)),
  );
  expect((await problemOf(refused, 422)).errors![0]!.pointer).toBe("#/configuration/settings/1/stated_noise/distance");
});
