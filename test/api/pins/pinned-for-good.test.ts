import { createClient } from "@libsql/client";
import { afterAll, beforeAll, expect, test } from "vitest";
import { learnSpreadAnew } from "../../../api/jobs/learn-spread.ts";
import { rebuild } from "../../../api/jobs/rebuild.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, settings, startInProcess } from "../../support/in-process.ts";
import { listPins, pinnedAnswers } from "../../support/pinned-answers.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial, withoutFlow } from "../../support/sample-trial.ts";

let target: InProcess;
let keys: string[];
let pins: string[];
let before: ReadonlyMap<string, string>;
let stored: StoredTrial[];

const SAMPLE = withoutFlow(SAMPLE_CONFIGURATION);
const other = { ...SAMPLE, title: "Harbour box again", arrangement: "one panel, inlet side" };
const third = { ...SAMPLE, title: "Pier box", arrangement: "two panels side by side" };
const fourth = { ...SAMPLE, title: "Quay box", arrangement: "two panels in a row" };
const as = (key: string, body: unknown) => json(body, bearer(key));
const operate = async (path: string, body: unknown, key = settings.operatorKey) => {
  const answer = await target.request(path, as(key, body));
  expect([answer.status, answer.ok ? "" : await answer.text()]).toEqual([answer.status, ""]);
};

beforeAll(async () => {
  target = await startInProcess();
  keys = [await newKey(target), await newKey(target), await newKey(target)];
  stored = [];
  for (const [n, configuration] of [SAMPLE, other, third, fourth].entries()) {
    for (const [i, key] of keys.entries()) {
      stored.push(await store(target, key, sampleTrial(10 * n + i + 1, { configuration })));
    }
  }
  pins = await listPins(target.databaseUrl);
  before = await pinnedAnswers(target.request, pins);
}, 60_000);
afterAll(() => target.stop());

/** The current figure of the first configuration: each change below is to change it, or it would show nothing. */
async function current(): Promise<string> {
  return (await target.request("/v1/leaderboard")).text();
}

/**
 * What happens to a registry while results of it are quoted. A change that should leave them alone is added here, with
 * whether the current list shows it.
 */
const CHANGES: readonly (readonly [name: string, showsInList: boolean, happen: () => Promise<unknown>])[] = [
  [
    "new trials in the same entry",
    true,
    () =>
      store(target, keys[1]!, sampleTrial(4, { configuration: SAMPLE, room: { volume: { value: 30, unit: "m3" } } })),
  ],
  [
    "a merge",
    true,
    () => operate(`/v1/configurations/${stored[3]!.configuration.id}/merge`, { into: sampleId(), reason: "the same" }),
  ],
  [
    "a corrected room",
    true,
    () => {
      const room = (stored[0] as unknown as { room: { id: string } }).room.id;
      const volume = { value: 33, unit: "m3", u: 0.5 };
      return operate(`/v1/rooms/${room}/revisions`, { volume, reason: "a wardrobe left out" }, keys[0]);
    },
  ],
  [
    "a configuration's words revised",
    true,
    () => operate(`/v1/configurations/${sampleId()}/revisions`, { ...SAMPLE, title: "Renamed box" }),
  ],
  [
    "a spread learnt and applied",
    true,
    () => learnSpreadAnew(target.deps.db, target.deps.now, { batches: 50, size: 25 }),
  ],
  [
    "a trial held, and listed again",
    false,
    async () => {
      await operate("/v1/moderation", { subject: stored[6]!.id, action: "hold", reason: "to be checked" });
      await operate("/v1/moderation", { subject: stored[6]!.id, action: "list", reason: "checked" });
    },
  ],
  [
    "a question",
    false,
    () => operate(`/v1/trials/${stored[7]!.id}/questions`, { question: "Was the door shut?" }, keys[0]),
  ],
  [
    "a rebuild of all that is derived",
    false,
    async () => {
      const client = createClient({ url: target.databaseUrl });
      await client.execute("DELETE FROM standings");
      await client.execute("UPDATE pooled SET cadr_m3_per_h = 1, u = 1 WHERE trials > 0");
      client.close();
      await rebuild(target.deps.db);
    },
  ],
];
const sampleId = () => stored[0]!.configuration.id;

test("there are pins of trials, and of every basis of entries", () => {
  expect(pins.some((pin) => pin.includes("trl-"))).toBe(true);
  for (const basis of ["all", "independent", "paired", "independent_paired"]) {
    expect(pins.some((pin) => pin.includes(`/${basis}/`))).toBe(true);
  }
});

test.each(CHANGES)("after %s they answer byte for byte as before", async (_name, showsInList, happen) => {
  const list = await current();
  await happen();
  if (showsInList) expect(await current()).not.toBe(list);
  expect(await pinnedAnswers(target.request, pins)).toEqual(before);
});

test("rows that a change made can be pinned in their turn", async () => {
  const now = await listPins(target.databaseUrl);
  expect(now.length).toBeGreaterThan(pins.length + 20);
  await pinnedAnswers(target.request, now); // members of each hash to what it holds
});
