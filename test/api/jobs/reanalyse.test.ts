import { createClient } from "@libsql/client";
import { afterEach, beforeEach, expect, test } from "vitest";
import { simulateRuns } from "../../../analysis/simulate/simulate-log.ts";
import { createApp } from "../../../api/app.ts";
import { reanalyse } from "../../../api/jobs/reanalyse.ts";
import { repool } from "../../../api/repool.ts";
import type { BandResultOut } from "../../../api/wire/analysis.ts";
import { openEmbedded } from "../../../db/embedded.ts";
import { insertApplied } from "../../../db/insert-applied.ts";
import { readEntriesAt } from "../../../db/members.ts";
import { trials } from "../../../db/schema/trials.ts";
import { isLostRace } from "../../../db/store-error.ts";
import { leaderboard, newKey, type StoredTrial, store } from "../../support/client.ts";
import { expectSameRebuilt } from "../../support/expect-same-rebuilt.ts";
import { type InProcess, settings, startInProcess } from "../../support/in-process.ts";
import { BLIND_METHOD, NEXT_METHOD } from "../../support/other-method.ts";
import {
  bearer,
  json,
  SAMPLE_CONFIGURATION,
  sampleScenario,
  sampleTrial,
  sentSeries,
  withoutFlow,
} from "../../support/sample-trial.ts";

let target: InProcess;
let newer: InProcess;
let key: string;
beforeEach(async () => {
  target = await startInProcess();
  const app = createApp(() => ({ ...target.deps, method: NEXT_METHOD }));
  newer = { ...target, request: async (path, init) => app.request(path, init) };
  key = await newKey(target);
});
afterEach(() => target.stop());

const next = () => ({ ...target.deps, method: NEXT_METHOD });

/** A short log of one of several cleaners, in a room of its own. */
function trialOf(seed: number, cleaner: number, volumeM3 = 30, changes: Readonly<Record<string, unknown>> = {}) {
  const { schedule: _, counter, ...scenario } = sampleScenario(seed);
  const channels = [
    ...counter.channels,
    {
      ...counter.channels[0]!,
      id: "pm2.5",
      quantity: "mass" as const,
      unit: "ug/m3",
      fromUm: null,
      toUm: 2.5,
      cumulative: "below" as const,
    },
  ];
  const made = simulateRuns(
    {
      ...scenario,
      counter: { ...counter, channels },
      room: { ...scenario.room, volumeM3 },
      cleaner: { cadrM3PerH: 8 * volumeM3 },
    },
    { background: 60, natural: 400, total: 900 },
  );
  return sampleTrial(1, {
    configuration: { ...withoutFlow(SAMPLE_CONFIGURATION), arrangement: `cleaner ${cleaner}` },
    room: {
      label: `room ${seed}`,
      volume: { value: volumeM3, unit: "m3", u: 0.6 },
      ventilation: "off",
      mixing_fan: "on",
    },
    runs: [
      { role: "natural", series: sentSeries(made.natural.series) },
      { role: "total", series: sentSeries(made.total.series) },
    ],
    ...changes,
  });
}

type OtherMethods = { method_version: string; results: Pick<BandResultOut, "band" | "cadr">[] }[];

const boardText = async () => (await target.request("/v1/leaderboard")).text();
const read = async (id: string) => (await (await target.request(`/v1/trials/${id}`)).json()) as StoredTrial;
const cadrOf = (trial: StoredTrial) => trial.analysis.results.find(({ band }) => band.kind === "standard")?.cadr.value;
const act = async (path: string, body: unknown, by = key) => {
  const answer = await target.request(path, json(body, bearer(by)));
  expect([path, answer.status, answer.ok ? "" : await answer.text()]).toEqual([path, answer.status, ""]);
};

const expectRebuilt = () => expectSameRebuilt(target);

test("results of a new version stand beside the old, one a step, and readers see them when none is left", async () => {
  const stored: StoredTrial[] = [];
  for (const seed of [1, 2, 3, 4, 5]) stored.push(await store(target, key, trialOf(seed, seed % 2)));
  const refused = await store(target, key, trialOf(6, 2, 60));
  const before = await boardText();
  const one = { trials: 1, batches: 100, size: 1 };
  expect(await reanalyse(next(), one)).toMatchObject({ analysed: 1, adopted: false, done: false });
  expect(await reanalyse(next(), { ...one, trials: 2 })).toMatchObject({ analysed: 2, adopted: false, done: false });
  expect(await boardText()).toBe(before);
  await expectRebuilt();

  // In the middle: older and newer code each store one, one is withdrawn, one held.
  stored.push(await store(target, key, trialOf(7, 1)), await store(newer, key, trialOf(8, 1)));
  await act(`/v1/trials/${stored[3]!.id}/withdrawal`, { reason: "a leak was found" });
  await act("/v1/moderation", { subject: stored[4]!.id, action: "hold", reason: "asked about" }, settings.operatorKey);
  await expectRebuilt();
  const middle = await boardText();
  expect((await read(stored[6]!.id)).analysis.method_version).toBe("1.1.0");
  expect((await read(stored[0]!.id)).analysis.method_version).toBe("1.0.0");

  let outcome = await reanalyse(next(), { trials: 1, batches: 1, size: 1 });
  for (let step = 0; step < 20 && !outcome.adopted; step++) {
    expect(await boardText()).toBe(middle);
    outcome = await reanalyse(next(), { trials: 1, batches: 1, size: 1 });
    await expectRebuilt();
  }
  expect(outcome).toMatchObject({ adopted: true, done: false, adoption: { version: "1.1.0", ordinal: 2 } });
  // Between adoption and the last batch all goes on: a trial is stored, the held one listed.
  stored.push(await store(newer, key, trialOf(9, 0)));
  await act("/v1/moderation", { subject: stored[4]!.id, action: "list", reason: "answered" }, settings.operatorKey);
  for (let step = 0; step < 20 && !outcome.done; step++) {
    outcome = await reanalyse(next(), { trials: 1, batches: 1, size: 1 });
    await expectRebuilt();
  }
  expect(outcome).toMatchObject({ adopted: false, done: true, kept: 0 });
  expect(await reanalyse(next())).toMatchObject({ analysed: 0, repooled: 0, done: true });

  const now = await leaderboard(target);
  const was = JSON.parse(before) as typeof now;
  expect(now.entries.length).toBe(was.entries.length - 1); // the refused one stood alone
  const first = await read(stored[0]!.id);
  expect(cadrOf(first)! / cadrOf(stored[0]!)!).toBeCloseTo(1.01, 3);
  expect(
    (first.other_methods as OtherMethods).map(({ method_version, results }) => [method_version, results[0]]),
  ).toEqual([["1.0.0", { band: stored[0]!.analysis.results[0]!.band, cadr: stored[0]!.analysis.results[0]!.cadr }]]);
  expect(now.entries.reduce((sum, entry) => sum + entry.trials, 0)).toBe(7); // of nine one is refused, one withdrawn
  expect((await read(refused.id)).analysis.results).toEqual([]);
  const entry = (await (await target.request(`/v1/entries/${now.entries[0]!.id}`)).json()) as {
    pooled: { method_version: string }[];
  };
  expect(JSON.stringify(entry)).toContain('"method_version":"1.1.0"');
  expect(JSON.stringify(entry)).not.toContain('"method_version":"1.0.0"');
}, 120_000);

test("two workers at once and a writer beside them make one result a trial and one adoption", async () => {
  for (const seed of [1, 2, 3, 4]) await store(target, key, trialOf(seed, seed % 2));
  const second = await openEmbedded(target.databaseUrl);
  const limits = { trials: Infinity, batches: Infinity, size: 1 };
  const [one, two] = await Promise.all([
    reanalyse(next(), limits),
    reanalyse({ ...next(), db: second }, limits),
    store(newer, key, trialOf(5, 1)),
    store(target, key, trialOf(6, 0)),
  ]);
  second.close();
  await reanalyse(next());
  expect(one.analysed + two.analysed).toBeGreaterThanOrEqual(4);
  expect([one.adopted, two.adopted].filter(Boolean)).toHaveLength(1);
  const client = createClient({ url: target.databaseUrl });
  const count = async (sql: string) => Number((await client.execute(sql)).rows[0]![0]);
  expect(await count("SELECT count(*) FROM method_adoptions")).toBe(2);
  expect(await count("SELECT count(*) FROM results WHERE method_ordinal = 2")).toBe(6);
  client.close();
  await expectRebuilt();
}, 120_000);

test("what older code stores after the adoption is analysed again, and counts by the new version from its own event on", async () => {
  await store(target, key, trialOf(1, 0));
  await reanalyse(next());
  const late = await store(target, key, trialOf(2, 0));
  expect((await read(late.id)).analysis.method_version).toBe("1.0.0");
  const [before] = (await leaderboard(target)).entries;
  expect(await reanalyse(next())).toMatchObject({ analysed: 1, adopted: false, done: true });
  const after = await read(late.id);
  expect(after.analysis.method_version).toBe("1.1.0");
  expect(after.history.at(-1)).toMatchObject({ kind: "method-applied", reason: "method 1.1.0, revision 1" });
  const [entry] = (await leaderboard(target)).entries;
  expect(entry!.cadr.value).toBeGreaterThan(before!.cadr.value);
  await expectRebuilt();
  // Code gone back to the older version adds nothing and changes nothing.
  const board = await boardText();
  expect(await reanalyse(target.deps)).toMatchObject({ analysed: 0, adopted: false, repooled: 0, done: true });
  expect(await boardText()).toBe(board);
}, 60_000);

test("a band that only the new version finds has its entry, also where a merge moves the trials, and where the trial waits", async () => {
  const app = createApp(() => ({ ...target.deps, method: BLIND_METHOD }));
  const blind: InProcess = { ...target, request: async (path, init) => app.request(path, init) };
  const [one, two, held] = [
    await store(blind, key, trialOf(1, 0)),
    await store(blind, key, trialOf(2, 1)),
    await store(blind, key, trialOf(3, 2)),
  ];
  await act("/v1/moderation", { subject: held.id, action: "hold", reason: "asked about" }, settings.operatorKey);
  await reanalyse(next(), { trials: 2, batches: 1, size: 1 });
  await act(
    `/v1/configurations/${one.configuration.id}/merge`,
    { into: two.configuration.id, reason: "found to be one" },
    settings.operatorKey,
  );
  await reanalyse(next(), { trials: Infinity, batches: 1, size: 1 });
  await act(
    `/v1/configurations/${two.configuration.id}/merge`,
    { into: held.configuration.id, reason: "found to be one" },
    settings.operatorKey,
  );
  await expectRebuilt();
  await reanalyse(next());
  await act("/v1/moderation", { subject: held.id, action: "list", reason: "answered" }, settings.operatorKey);
  await expectRebuilt();
  const mass = (await leaderboard(target, "?band=mass")).entries;
  expect(mass.map(({ trials }) => trials)).toEqual([3]);
}, 60_000);

test("who had read what counts under the older version loses the race, and has added nothing", async () => {
  const { db } = target.deps;
  await store(target, key, trialOf(1, 0));
  const known = await db.read.select({ setting: trials.setting }).from(trials);
  const state = (await readEntriesAt(db.read, [known[0]!.setting])).at(-1);
  await reanalyse(next(), { trials: 9, batches: 1, size: 1 }); // adopted, and only the first entry pooled
  const pools = await repool(db.read, [{ state: state!, members: state!.members }]);
  const lost = insertApplied(db.read, { kind: "method-applied", upTo: "ent-", at: "2026-12-01T00:00:00.000Z", pools });
  await expect(lost).rejects.toSatisfy(isLostRace);
  await expectRebuilt();
});

test("a trial whose readings were erased keeps its result, and holds nobody up", async () => {
  const kept = await store(target, key, trialOf(1, 0));
  await store(target, key, trialOf(2, 0));
  const client = createClient({ url: target.databaseUrl });
  await client.execute({
    sql: "UPDATE series SET bytes = NULL, erased_at = '2026-12-01T00:00:00.000Z', erased_reason = 'asked for', erased_sha256 = ? WHERE sha256 IN (SELECT series FROM runs WHERE trial = ?)",
    args: ["0".repeat(64), kept.id],
  });
  client.close();
  expect(await reanalyse(next())).toMatchObject({ analysed: 1, kept: 1, adopted: true, done: true });
  expect((await read(kept.id)).analysis.method_version).toBe("1.0.0");
  expect((await leaderboard(target)).entries[0]!.trials).toBe(2);
  await expectRebuilt();
}, 60_000);
