import { createClient } from "@libsql/client";
import { afterEach, beforeEach, expect, test } from "vitest";
import { learnSpreadAnew } from "../../api/jobs/learn-spread.ts";
import { rebuild } from "../../api/jobs/rebuild.ts";
import { findSpread, insertSpread, listStale } from "../../db/spreads.ts";
import { leaderboard, newKey, store } from "../support/client.ts";
import { type InProcess, settings, startInProcess } from "../support/in-process.ts";
import { atEveryStatement, interruptedAt, neighbour } from "../support/interrupted.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../support/sample-trial.ts";
import { tableContents } from "../support/table-contents.ts";

let target: InProcess;
let key: string;
beforeEach(async () => {
  target = await startInProcess();
  key = await newKey(target);
});

/** Whatever came between, what stands is what the events make of it. */
afterEach(async () => {
  const client = createClient({ url: target.databaseUrl });
  const before = await tableContents(client);
  await rebuild(target.deps.db);
  const after = await tableContents(client);
  client.close();
  await target.stop();
  for (const table of Object.keys(before)) expect([table, after[table]]).toEqual([table, before[table]]);
});

type Asked = Pick<InProcess, "request">;

let seed = 9000;
const trialOf = (arrangement: string, room = "Back room", volume = 30) => {
  const [, natural, total] = sampleTrial(seed).runs;
  const runs = [
    { ...natural, to: 400 },
    { ...total, to: 900 },
  ]; // short: many are stored
  const configuration = { ...SAMPLE_CONFIGURATION, arrangement };
  return sampleTrial(seed++, {
    configuration,
    setting: "low",
    runs,
    room: { label: room, volume: { value: volume, unit: "m3", u: 0.6 } },
  });
};
const trialsOf = async (configuration: string) =>
  (await leaderboard(target, "?limit=200")).entries.find((entry) => entry.configuration.id === configuration)?.trials ??
  0;
const merge = async (from: Asked, id: string, into: string) => {
  const body = json({ into, reason: "a test" }, bearer(settings.operatorKey));
  expect((await from.request(`/v1/configurations/${id}/merge`, body)).status).toBe(200);
};
const withdraw = async (from: Asked, id: string) =>
  expect((await from.request(`/v1/trials/${id}/withdrawal`, json({ reason: "a test" }, bearer(key)))).status).toBe(200);

test("a trial stored between any two statements of a merge counts, and a merge between those of a storing takes it along", async () => {
  const places = await atEveryStatement(async (n) => {
    const first = await store(target, key, trialOf(`merged while stored ${n}`));
    const into = await store(target, key, trialOf(`merged into while stored ${n}`));
    const other = neighbour(() => store(target, key, trialOf(`merged while stored ${n}`)));
    const one = interruptedAt(target, n, other.comes);
    await merge(one, first.configuration.id, into.configuration.id);
    await one.stop();
    expect(await trialsOf(first.configuration.id)).toBe(0);
    expect(await trialsOf(into.configuration.id)).toBe(other.came ? 3 : 2);
    return other.came;
  });
  expect(places).toBeGreaterThan(6);
  await atEveryStatement(async (n) => {
    const first = await store(target, key, trialOf(`stored while merged ${n}`));
    const into = await store(target, key, trialOf(`stored while merged into ${n}`));
    const other = neighbour(() => merge(target, first.configuration.id, into.configuration.id));
    const one = interruptedAt(target, n, other.comes);
    await store(one, key, trialOf(`stored while merged ${n}`));
    await one.stop();
    expect(await trialsOf(first.configuration.id)).toBe(other.came ? 0 : 2);
    expect(await trialsOf(into.configuration.id)).toBe(other.came ? 3 : 1);
    return other.came;
  });
}, 120_000);

test("a withdrawal and a merge do not undo each other", async () => {
  const both = async (name: string, n: number) => {
    const first = await store(target, key, trialOf(`${name} ${n}`));
    const into = await store(target, key, trialOf(`${name}, the other ${n}`));
    const [id, to] = [first.configuration.id, into.configuration.id];
    return { merges: (from: Asked) => merge(from, id, to), withdraws: (from: Asked) => withdraw(from, first.id), to };
  };
  await atEveryStatement(async (n) => {
    const { merges, withdraws, to } = await both("withdrawn while merged", n);
    const other = neighbour(() => withdraws(target));
    const one = interruptedAt(target, n, other.comes);
    await merges(one);
    await one.stop();
    expect(await trialsOf(to)).toBe(other.came ? 1 : 2);
    return other.came;
  });
  await atEveryStatement(async (n) => {
    const { merges, withdraws, to } = await both("merged while withdrawn", n);
    const other = neighbour(() => merges(target));
    const one = interruptedAt(target, n, other.comes);
    await withdraws(one);
    await one.stop();
    expect(await trialsOf(to)).toBe(1);
    return other.came;
  });
}, 120_000);

test("a trial stored between any two statements of a room's correction is pooled with the new volume", async () => {
  const places = await atEveryStatement(async (n) => {
    const room = `corrected at ${n}`;
    const first = await store(target, key, trialOf("a corrected room", room));
    const id = (first.room as { id: string }).id;
    const other = neighbour(async () => {
      const answer = await target.request("/v1/trials", json(trialOf("another of the room", room), bearer(key)));
      expect([201, 409]).toContain(answer.status); // 409: the room has its new volume already
    });
    const one = interruptedAt(target, n, other.comes);
    const body = json({ volume: { value: 33, unit: "m3", u: 0.6 }, reason: "a test" }, bearer(key));
    expect((await one.request(`/v1/rooms/${id}/revisions`, body)).status).toBe(201);
    await one.stop();
    return other.came;
  });
  expect(places).toBeGreaterThan(5);
}, 120_000);

test("entries that change while a spread is applied are pooled with it, by whoever comes last", async () => {
  const { db, now } = target.deps;
  const places = await atEveryStatement(async (n) => {
    await store(target, key, trialOf("spread"));
    const id = (await findSpread(db.read)).id + 1;
    const row = { id, at: now().toISOString(), relative: 0.2, dof: 9, source: "learnt" as const, entries: 3 };
    await db.write((connection) => insertSpread(connection, row));
    const other = neighbour(() => store(target, key, trialOf("spread")));
    const one = interruptedAt(target, n, other.comes);
    await learnSpreadAnew(one.db, now); // applies what is there; then finds too few laboratories, and assumes again
    await one.stop();
    expect(await findSpread(db.read)).toMatchObject({ id: id + 1, source: "assumed" });
    expect(await listStale(db.read, id + 1, "", 100)).toEqual([]);
    return other.came;
  });
  expect(places).toBeGreaterThan(5);
}, 120_000);
