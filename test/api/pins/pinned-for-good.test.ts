import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createClient } from "@libsql/client";
import { afterAll, beforeAll, expect, test } from "vitest";
import { createApp } from "../../../api/app.ts";
import { dumpRegistry } from "../../../api/jobs/dump/dump-registry.ts";
import { restore } from "../../../api/jobs/dump/restore.ts";
import { type Erasable, eraseFromTrial } from "../../../api/jobs/erase.ts";
import { learnSpreadAnew } from "../../../api/jobs/learn-spread.ts";
import { reanalyse } from "../../../api/jobs/reanalyse.ts";
import { rebuild } from "../../../api/jobs/rebuild.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, openTemporary, settings, startInProcess } from "../../support/in-process.ts";
import { NEXT_METHOD } from "../../support/other-method.ts";
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

/** The list as it stands: a change that readers see in it is to change it, or it would show nothing. */
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
    "an amendment of who paid",
    true,
    () =>
      operate(
        `/v1/trials/${stored[8]!.id}/revisions`,
        { interest: "lent_or_given", reason: "it was lent, which I had not said" },
        keys[2],
      ),
  ],
  [
    "an amendment of a window",
    true,
    () =>
      operate(
        `/v1/trials/${stored[9]!.id}/revisions`,
        {
          runs: [{ n: 2, windows: [{ phase: "total", n: 0, from: 100, to: 700 }] }],
          reason: "the door was opened at the end",
        },
        keys[0],
      ),
  ],
  ["erased readings of a test that no newer method will read", false, () => erase(2, "series")],
  [
    "a new method version, reanalysed and adopted",
    true,
    async () => {
      const { done, adopted, kept } = await reanalyse({ ...target.deps, method: NEXT_METHOD });
      expect({ done, adopted, kept }).toEqual({ done: true, adopted: true, kept: 1 });
    },
  ],
  ["erased words", false, () => erase(1, "words")],
  ["an erased question", false, () => erase(7, "questions")],
  ["erased readings", false, () => erase(1, "series")],
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
const erase = async (n: number, what: Erasable) => {
  const { db, now } = target.deps;
  expect(await eraseFromTrial(db, stored[n]!.id, what, "asked for by who wrote it", now().toISOString())).not.toBe(0);
};

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

test("what was erased is gone, and the figures that were quoted of it stay", async () => {
  const erased = stored[1]!.id;
  expect((await target.request(`/v1/trials/${erased}/runs/0/series.csv`)).status).toBe(410);
  const page = await target.request(pins.find((pin) => pin.includes(erased))!);
  expect(page.status).toBe(200);
});

test("dumped and restored into an empty registry, they answer there byte for byte as before", async () => {
  const folder = mkdtempSync(join(tmpdir(), "motefall-pins-"));
  const again = await openTemporary();
  const { differing } = await restore(
    await dumpRegistry({ url: target.databaseUrl }, folder),
    { url: again.databaseUrl },
    again.deps.db,
  );
  expect(differing).toEqual([]);
  const app = createApp(() => again.deps);
  const restored = async (path: string) => app.request(path);
  expect(await pinnedAnswers(restored, pins)).toEqual(before);
  const now = await listPins(target.databaseUrl);
  expect(await pinnedAnswers(restored, now)).toEqual(await pinnedAnswers(target.request, now));
  expect(await (await restored("/v1/leaderboard")).text()).toBe(await current());
  await again.discard();
  rmSync(folder, { recursive: true });
});

test("rows that a change made can be pinned in their turn", async () => {
  const now = await listPins(target.databaseUrl);
  expect(now.length).toBeGreaterThan(pins.length + 20);
  await pinnedAnswers(target.request, now); // members of each hash to what it holds
});
