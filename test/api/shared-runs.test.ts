import { afterAll, beforeAll, expect, test } from "vitest";
import { newKey, problemOf, type StoredTrial, store } from "../support/client.ts";
import { type InProcess, startInProcess } from "../support/in-process.ts";
import { bearer, json, sampleTrial } from "../support/sample-trial.ts";

let target: InProcess;
let key: string;
let real: StoredTrial;
let invented: StoredTrial;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target);
  real = await store(target, key, sampleTrial(1));
  invented = await store(target, key, sampleTrial(2, { invented: true }));
});
afterAll(() => target.stop());

const linked = (seed: number, from: string, changes: object = {}, beside: object = {}) =>
  sampleTrial(seed, {
    runs: [{ role: "natural", from_run: `${from}/runs/1`, ...beside }, sampleTrial(seed).runs[2]],
    ...changes,
  });
const refused = async (trial: unknown) =>
  (await problemOf(await target.request("/v1/trials", json(trial, bearer(key))), 422)).errors!;

test("invented and real trials share no natural run", async () => {
  const problem = [{ detail: "Invented and real trials share no runs.", pointer: "#/runs/0/from_run" }];
  expect(await refused(linked(3, invented.id))).toEqual(problem);
  expect(await refused(linked(3, real.id, { invented: true }))).toEqual(problem);
  await store(target, key, linked(4, invented.id, { invented: true }));
  await store(target, key, linked(5, real.id));
});

test("a natural run without the channels that are fitted is refused", async () => {
  const trial = linked(6, real.id);
  const total = structuredClone(sampleTrial(6).runs[2]!);
  total.series.channels[0]!.id = "n2";
  const [problem] = await refused({ ...trial, runs: [trial.runs[0], total] });
  expect(problem).toEqual({ detail: 'The natural run holds no channel "n2".', pointer: "#/runs/0/from_run" });
});

test("what would be ignored beside the source of a run is refused", async () => {
  const columns = { t: { column: "time" }, channels: [{ column: "a", quantity: "raw" }] };
  const beside = { columns, from: 1, marks: [{ event: "cleaner_on", t: 1 }], ventilation: "off" };
  const pointers = (await refused(linked(7, real.id, {}, beside))).map(({ pointer }) => pointer);
  expect(pointers.sort()).toEqual(["columns", "from", "marks", "ventilation"].map((field) => `#/runs/0/${field}`));
  const [first, ...rest] = sampleTrial(7).runs;
  expect((await refused(sampleTrial(7, { runs: [{ ...first, columns }, ...rest] })))[0]!.pointer).toBe(
    "#/runs/0/columns",
  );
});
