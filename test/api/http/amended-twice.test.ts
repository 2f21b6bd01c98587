import { afterAll, beforeAll, expect, test } from "vitest";
import { eraseFromTrial } from "../../../api/jobs/erase.ts";
import { verify } from "../../../api/jobs/verify/verify.ts";
import type { EntryOut } from "../../../api/wire/entry.ts";
import { leaderboard, newKey, problemOf, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, settings, startInProcess } from "../../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";

type Amended = StoredTrial & { readonly revision: number; readonly runs: readonly Record<string, unknown>[] };

let target: InProcess;
let key: string;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target);
});
afterAll(() => target.stop());

const amend = (id: string, body: object) =>
  target.request(`/v1/trials/${id}/revisions`, json({ reason: "put right", ...body }, bearer(key)));
const amended = async (id: string, body: object, status = 201) => {
  const answer = await amend(id, body);
  const view = (await answer.json()) as Amended;
  expect([answer.status, answer.status === status ? "" : view]).toEqual([status, ""]);
  return view;
};
const read = async (id: string) => (await (await target.request(`/v1/trials/${id}`)).json()) as Amended;
const cleaner = (arrangement: string, flow = 400) => {
  const [fan, ...parts] = SAMPLE_CONFIGURATION.parts;
  const stated = { ...fan, stated_flow: { value: flow, unit: "m3/h" } };
  return { ...SAMPLE_CONFIGURATION, arrangement, parts: [stated, ...parts] };
};
const made = (seed: number, arrangement: string, more = {}) =>
  store(target, key, sampleTrial(seed, { configuration: cleaner(arrangement), ...more }));
const entryOf = async ({ id }: StoredTrial) => {
  const { entries } = (await read(id)) as unknown as { entries: { id: string }[] };
  return (await (await target.request(`/v1/entries/${entries[0]!.id}`)).json()) as EntryOut;
};
const wholeAgain = async () => expect((await verify(target.deps.db.read, 5)).damages).toEqual([]);

test("the same words twice are one revision, and null takes away what was said", async () => {
  const trial = await made(9101, "twice", { power: { value: 30, unit: "W" }, specimen: "the red one" });
  const change = { note: "after", counters: [{ id: "c1", principle: "optical_counter", position: "on the floor" }] };
  expect(await amended(trial.id, change)).toMatchObject({ revision: 2 });
  expect(await amended(trial.id, change, 200)).toMatchObject({ revision: 2, note: "after" });
  const taken = await amended(trial.id, { note: null, power: null, specimen: null, aerosol: null });
  expect(taken.revision).toBe(3);
  for (const field of ["note", "power", "specimen", "aerosol"]) expect(taken).not.toHaveProperty(field);
  const entry = await entryOf(trial);
  expect(entry.bases.all!.power).toBeNull();
  expect(entry.bases.all!.aerosols).toEqual({ other: 1 });
  expect(await amended(trial.id, { note: null }, 200)).toMatchObject({ revision: 3 });
  expect((await target.request(`/trials/${trial.id}`)).status).toBe(200);
  await wholeAgain();
});

test("an erasure takes the words of every revision, and an amendment afterwards brings none back", async () => {
  const trial = await made(9102, "erased", { note: "my sister's flat", specimen: "hers" });
  await amended(trial.id, { note: "my brother's flat" });
  await eraseFromTrial(target.deps.db, trial.id, "words", "asked to", "2026-11-01T00:00:00.000Z");
  const words = JSON.stringify(await target.deps.db.read.all("SELECT text FROM words"));
  expect(words).not.toContain("sister");
  expect(words).not.toContain("brother");
  expect(await amended(trial.id, { interest: "paid" })).toMatchObject({ revision: 3, note: null, specimen: null });
  expect(await amended(trial.id, { note: "new words" })).toMatchObject({ note: "new words", specimen: null });
  await wholeAgain();
});

test("where one time of a run is amended all of them are told in seconds", async () => {
  const { runs, ...rest } = sampleTrial(9103, { configuration: cleaner("minutes") });
  const inMinutes = runs.map(({ role, series }) => {
    const t = { unit: "min", values: series.t.values.map((s) => s / 60) };
    return { role, series: { ...series, t }, ...(role === "total" ? { from: 1, to: 20 } : {}) };
  });
  const trial = await store(target, key, { ...rest, runs: inMinutes });
  const windows = [{ phase: "total", n: 0, from: 100, to: 700 }];
  const now = await amended(trial.id, { runs: [{ n: 2, windows }] });
  expect(now.runs[2]).toMatchObject({ from: 60, to: 1200, windows, times: "seconds after the first row" });
  const back = await amended(trial.id, { runs: [{ n: 2, windows: [], from: null, to: null }] });
  expect(back.runs[2]).not.toHaveProperty("from");
  await problemOf(await amend(trial.id, { runs: [{ n: 2, windows: [{ ...windows[0], to: 50 }] }] }), 422);
});

test("figures that a stated rule doubts wait for a person, also where an amendment brought them", async () => {
  const { runs, ...rest } = sampleTrial(9104, { configuration: cleaner("doubted", 225) }); // it cleans 240 m³/h
  const cut = runs.map((run) => (run.role === "total" ? { ...run, series: { ...run.series, to: 330 } } : run));
  const trial = await store(target, key, { ...rest, runs: cut });
  expect(trial.state).toBe("listed"); // of so short a part hardly anything can be told
  const entry = await entryOf(trial);
  const now = await amended(trial.id, { runs: [{ n: 2, to: null }] });
  expect(now.analysis.results[0]!.findings.map(({ code }) => code)).toContain("cadr-above-flow");
  expect(now).toMatchObject({ state: "pending", doubts: [{ code: "cadr-above-flow" }] });
  expect((await leaderboard(target)).entries.map(({ id }) => id)).not.toContain(entry.id);
  await wholeAgain();
  const listing = { subject: trial.id, action: "list", reason: "measured twice" };
  expect((await target.request("/v1/moderation", json(listing, bearer(settings.operatorKey)))).status).toBe(200);
  expect(await amended(trial.id, { interest: "paid" })).toMatchObject({ state: "listed" }); // a person knew of it
  await wholeAgain();
  expect((await target.request("/log")).status).toBe(200);
});

test("a corrected volume that a stated rule doubts makes the trials of the room wait", async () => {
  const room = { label: "corrected", volume: { value: 30, unit: "m3", u: 0.6 }, ventilation: "off", mixing_fan: "on" };
  const trial = await made(9109, "corrected", { room });
  const entry = await entryOf(trial);
  const correct = (value: number) => {
    const volume = { value, unit: "m3", u: 0.02 * value };
    const id = (trial.room as { id: string }).id;
    return target.request(`/v1/rooms/${id}/revisions`, json({ volume, reason: "measured again" }, bearer(key)));
  };
  expect((await correct(33)).status).toBe(201);
  expect((await read(trial.id)).state).toBe("listed");
  expect((await correct(3300)).status).toBe(201); // a point was forgotten: 100 times what its fan moves
  const now = await read(trial.id);
  expect(now).toMatchObject({ state: "pending", doubts: [{ code: "volume-unlikely" }, { code: "cadr-above-flow" }] });
  expect((await leaderboard(target)).entries.map(({ id }) => id)).not.toContain(entry.id);
  await wholeAgain();
  expect((await correct(33)).status).toBe(201);
  const listing = { subject: trial.id, action: "list", reason: "it was put right" };
  expect((await target.request("/v1/moderation", json(listing, bearer(settings.operatorKey)))).status).toBe(200);
  expect((await entryOf(trial)).bases.all!.cadr!.value).toBeCloseTo(1.1 * trial.analysis.results[0]!.cadr.value, 6);
  await wholeAgain();
});

test("who shares a natural run shares its error, whichever revision of it stands", async () => {
  const first = await made(9105, "shared");
  const { runs, ...rest } = sampleTrial(9106, { configuration: cleaner("shared") });
  const taking = runs.map((run) =>
    run.role === "natural" ? { role: "natural", from_run: `${first.id}/runs/1` } : run,
  );
  await store(target, key, { ...rest, runs: taking });
  const before = (await entryOf(first)).bases.all!.cadr;
  await amended(first.id, { power: { value: 40, unit: "W" } });
  expect((await entryOf(first)).bases.all!.cadr).toEqual(before);
});

test("of several at once each is stored once, after the other", async () => {
  const trial = await made(9107, "at once");
  const notes = Array.from({ length: 6 }, (_, i) => `note ${i}`);
  const answers = await Promise.all(notes.map((note) => amend(trial.id, { note })));
  expect(answers.map(({ status }) => status)).toEqual(notes.map(() => 201));
  const end = await read(trial.id);
  expect(end.revision).toBe(7);
  expect(end.history.filter(({ kind }) => kind === "trial-amended")).toHaveLength(6);
  await wholeAgain();
});

test("the same content once more leads to the trial that was withdrawn, and its words say how to store it anew", async () => {
  const sent = sampleTrial(9108, { configuration: cleaner("withdrawn") });
  const trial = await store(target, key, sent);
  await target.request(`/v1/trials/${trial.id}/withdrawal`, json({ reason: "wrong room" }, bearer(key)));
  expect(await store(target, key, sent, 200)).toMatchObject({ id: trial.id, state: "withdrawn" });
  const { detail } = await problemOf(await amend(trial.id, { note: "x" }), 409);
  expect(detail).toContain("send it with whatever was wrong put right");
  expect((await store(target, key, { ...sent, note: "in the other room" })).state).toBe("listed");
});
