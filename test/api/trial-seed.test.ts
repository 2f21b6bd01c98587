import { afterAll, beforeAll, expect, test } from "vitest";
import type { AnalysisOut } from "../../api/wire/analysis.ts";
import { newKey, store } from "../support/client.ts";
import { type InProcess, startInProcess } from "../support/in-process.ts";
import { json, sampleTrial } from "../support/sample-trial.ts";

/** A volume known so badly that the interval is checked by draws. */
const GUESSED = { volume: { value: 30, unit: "m3", u: 9 }, ventilation: "off", mixing_fan: "on" };

let target: InProcess;
let key: string;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target);
});
afterAll(() => target.stop());

const analysed = async (body: unknown) =>
  (await (await target.request("/v1/analyses", json(body))).json()) as AnalysisOut;

test("an interval of a large u is checked by draws, the same whenever and however the content is analysed", async () => {
  const trial = sampleTrial(1, { room: { label: "Loft", ...GUESSED } });
  const { room: _, counters, runs } = trial;
  const stored = await store(target, key, trial);
  const [result] = stored.analysis.results;
  expect(result!.monte_carlo).toMatchObject({ unit: "m3/h", draws: 10_000 });
  expect(result!.monte_carlo!.high).toBeGreaterThan(result!.cadr.value);
  expect(await analysed({ trial: stored.id })).toEqual(stored.analysis);
  const forgotten = await analysed({ room: GUESSED, counters, runs, performed_at: trial.performed_at });
  expect(forgotten.results[0]!.monte_carlo).toEqual(result!.monte_carlo);
});

test("other runs, and another volume, draw others; a volume that is known draws none", async () => {
  const drawn = async (seed: number, volume: object) => {
    const { counters, runs } = sampleTrial(seed);
    const { results } = await analysed({ room: { ...GUESSED, volume }, counters, runs });
    const { low, high } = results[0]!.monte_carlo!;
    return (high - low) / results[0]!.cadr.value;
  };
  const one = await drawn(1, GUESSED.volume);
  expect(await drawn(2, GUESSED.volume)).not.toBe(one);
  expect(await drawn(1, { value: 60, unit: "m3", u: 18 })).not.toBe(one);
  const { counters, runs, room } = sampleTrial(1);
  const { label: _, ...air } = room;
  expect((await analysed({ room: air, counters, runs })).results[0]!.monte_carlo).toBeNull();
});

test("a trial that takes its volume from the stored room, and its natural run from another trial, comes back the same", async () => {
  const from = await store(target, key, sampleTrial(3, { room: { label: "Attic", ...GUESSED } }));
  const [, , total] = sampleTrial(4).runs;
  const linked = await store(
    target,
    key,
    sampleTrial(4, {
      room: { label: "Attic", ...GUESSED },
      runs: [{ role: "natural", from_run: `${from.id}/runs/1` }, total],
    }),
  );
  expect(linked.analysis.results[0]!.monte_carlo).not.toBeNull();
  expect(await analysed({ trial: linked.id })).toEqual(linked.analysis);
});
