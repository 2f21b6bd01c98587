import { afterAll, beforeAll, expect, test } from "vitest";
import { newKey, problemOf, store } from "../support/client.ts";
import { type InProcess, startInProcess } from "../support/in-process.ts";
import { bearer, json, sampleTrial } from "../support/sample-trial.ts";

let target: InProcess;
let key: string;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target);
});
afterAll(() => target.stop());

const post = (changes: object) => target.request("/v1/trials", json(sampleTrial(1, { ...changes }), bearer(key)));
const pointersOf = async (changes: object, status = 422) =>
  (await problemOf(await post(changes), status)).errors?.map(({ pointer }) => pointer);

test.each([
  [{ value: 1e300, unit: "m3" }, "#/room/volume/value"],
  [{ value: 1e-300, unit: "m3" }, "#/room/volume/value"],
  [{ value: 30, unit: "m3", u: 1e308 }, "#/room/volume/u"],
  [{ value: 30, unit: "m3", u: 1e-300 }, "#/room/volume/u"],
])("a volume of %j is beyond what can be computed with", async (volume, pointer) => {
  expect(await pointersOf({ room: { volume } })).toEqual([pointer]);
});

const decay = (scale: number) => Array.from({ length: 300 }, (_, i) => scale * (800 * Math.exp(-i / 60) + 2));
const run = (values: unknown[], more: object = {}) => ({
  role: "total",
  series: {
    t: { unit: "s", values: values.map((_, i) => i * 5) },
    channels: [{ id: "n1", quantity: "number", from_um: 0.3, to_um: 1, values }],
  },
  ...more,
});

test("readings that no counter reports are refused: a drawing of them would not end", async () => {
  const at = ["#/runs/0/series/channels/0/values"];
  expect(await pointersOf({ runs: [run([...decay(1).slice(1), 1.7e308])] })).toEqual(at);
  expect(await pointersOf({ runs: [run(decay(1e305))] })).toEqual(at);
});

test("the largest and smallest readings that are taken are analysed and drawn", async () => {
  for (const scale of [1e25, 1e-9]) {
    const { id } = await store(target, key, sampleTrial(1, { runs: [run(decay(scale))] }));
    const page = await target.request(`/trials/${id}`);
    expect(page.status).toBe(200);
    expect(await page.text()).not.toMatch(/NaN|Infinity/);
  }
});

test("hundreds of thousands of wrong values get one complaint, at the first of them", async () => {
  const wrong = Array.from({ length: 600_000 }, (_, i) => (i < 2 ? i : true));
  const started = performance.now();
  const { series: short } = run([1]);
  const readings = { ...short, channels: [{ ...short.channels[0], values: wrong }] };
  expect(await pointersOf({ runs: [{ role: "total", series: readings }] })).toEqual([
    "#/runs/0/series/channels/0/values/2",
  ]);
  const series = { ...short, t: { unit: "s", values: wrong } };
  expect(await pointersOf({ runs: [{ role: "total", series }] })).toEqual(["#/runs/0/series/t/values/2"]);
  const junk = { ...short, channels: Array.from({ length: 500_000 }, () => ({})) };
  expect((await problemOf(await post({ runs: [{ role: "total", series: junk }] }), 422)).errors!.length).toBeLessThan(
    51,
  );
  expect(performance.now() - started).toBeLessThan(10_000);
});

const many = (channels: number, rows: number) => ({
  t: { unit: "s", values: Array.from({ length: rows }, (_, i) => i * 5) },
  channels: Array.from({ length: channels }, (_, i) => ({
    ...run([]).series.channels[0],
    id: `n${i}`,
    values: Array.from({ length: rows }, (__, row) => 800 * Math.exp(-row / 60) + 2),
  })),
});

test.each([
  ["fits", 26, 300, 40, "1040"],
  ["readings to fit", 20, 600, 20, "240000"],
])("more %s than a request may ask for: 413, also of a stored trial", async (_, channels, rows, count, told) => {
  const series = many(channels, rows);
  const windows = Array.from({ length: count }, (__, n) => ({ phase: "total", n, from: 0, to: 5000 }));
  const problem = await problemOf(await post({ runs: [{ role: "total", series, windows }] }), 413);
  expect(problem.detail).toContain(told);
  const stored = await store(target, key, sampleTrial(2, { runs: [{ role: "total", series }] }));
  const again = { trial: stored.id, windows: windows.map((window) => ({ run: 0, ...window })) };
  await problemOf(await target.request("/v1/analyses", json(again)), 413);
});
