import { afterAll, beforeAll, expect, test } from "vitest";
import { leaderboard, newKey, store } from "../support/client.ts";
import { type InProcess, startInProcess } from "../support/in-process.ts";
import { atEveryStatement, interruptedAt, neighbour } from "../support/interrupted.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../support/sample-trial.ts";

let target: InProcess;
let key: string;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target);
});
afterAll(() => target.stop());

let seed = 5000;
const labelled = (label: string) =>
  sampleTrial(seed++, { configuration: { ...SAMPLE_CONFIGURATION, settings: [{ label }] }, setting: label });
const trialsAt = async (label: string) =>
  (await leaderboard(target, "?limit=200")).entries.find(({ setting }) => setting === label)?.trials;

test("a trial stored between any two statements of another's storing is not lost from the pool", async () => {
  const places = await atEveryStatement(async (n) => {
    const label = `stored at ${n}`;
    await store(target, key, labelled(label));
    const other = neighbour(async () => {
      await store(target, key, labelled(label));
    });
    const one = interruptedAt(target, n, other.comes);
    await store(one, key, labelled(label));
    await one.stop();
    expect(await trialsAt(label)).toBe(other.came ? 3 : 2);
    return other.came;
  });
  expect(places).toBeGreaterThan(8);
}, 60_000);

test("the first two trials of a new configuration, room and setting may come at once", async () => {
  const places = await atEveryStatement(async (n) => {
    const label = `first at ${n}`;
    const configuration = { ...SAMPLE_CONFIGURATION, arrangement: `found by two at ${n}`, settings: [{ label }] };
    const room = { label, volume: { value: 30, unit: "m3", u: 0.6 } };
    const first = () => sampleTrial(seed++, { configuration, setting: label, room });
    const other = neighbour(async () => {
      await store(target, key, first());
    });
    const one = interruptedAt(target, n, other.comes);
    await store(one, key, first());
    await one.stop();
    const shown = (await leaderboard(target, "?limit=200")).entries.find(({ setting }) => setting === label)!;
    expect([shown.trials, shown.rooms]).toEqual([other.came ? 2 : 1, 1]);
    return other.came;
  });
  expect(places).toBeGreaterThan(6);
}, 60_000);

test("a withdrawal between any two statements of a storing is not undone by it, nor the other way round", async () => {
  const withdraw = (from: { request: typeof target.request }, id: string) =>
    from.request(`/v1/trials/${id}/withdrawal`, json({ reason: "a test" }, bearer(key)));
  await atEveryStatement(async (n) => {
    const label = `withdrawn at ${n}`;
    const first = await store(target, key, labelled(label));
    const other = neighbour(async () => {
      expect((await withdraw(target, first.id)).status).toBe(200);
    });
    const one = interruptedAt(target, n, other.comes);
    await store(one, key, labelled(label));
    await one.stop();
    expect(await trialsAt(label)).toBe(other.came ? 1 : 2);
    return other.came;
  });
  await atEveryStatement(async (n) => {
    const label = `joined at ${n}`;
    const first = await store(target, key, labelled(label));
    await store(target, key, labelled(label));
    const other = neighbour(async () => {
      await store(target, key, labelled(label));
    });
    const one = interruptedAt(target, n, other.comes);
    expect((await withdraw(one, first.id)).status).toBe(200);
    await one.stop();
    expect(await trialsAt(label)).toBe(other.came ? 2 : 1);
    return other.came;
  });
}, 60_000);

test("of two who send the same readings at once one is asked to wait, whichever statement they meet at", async () => {
  const copier = await newKey(target);
  const places = await atEveryStatement(async (n) => {
    const [log, label] = [seed++, `copied at ${n}`];
    const sent = (note: string) =>
      sampleTrial(log, {
        configuration: { ...SAMPLE_CONFIGURATION, arrangement: `${label} by ${note}` },
        setting: "High",
        note,
      });
    const states: string[] = [];
    const other = neighbour(async () => {
      states.push((await store(target, copier, sent("another"))).state);
    });
    const one = interruptedAt(target, n, other.comes);
    states.push((await store(one, key, sent("one"))).state);
    await one.stop();
    expect(states.sort()).toEqual(other.came ? ["listed", "pending"] : ["listed"]);
    return other.came;
  });
  expect(places).toBeGreaterThan(8);
}, 60_000);
