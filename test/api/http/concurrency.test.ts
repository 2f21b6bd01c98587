import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { leaderboard, newKey, type StoredTrial, store } from "../../support/client.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

describe.each(targets())("$name, many at once", ({ start }) => {
  let target: Target;
  let key: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
  });
  afterAll(() => target.stop());

  test("30 parallel identical submissions make one trial", async () => {
    const answers = await Promise.all(
      Array.from({ length: 30 }, () => target.request("/v1/trials", json(sampleTrial(1), bearer(key)))),
    );
    const statuses = answers.map(({ status }) => status).sort();
    expect(statuses).toEqual([...Array(29).fill(200), 201]);
    expect(new Set(answers.map((answer) => answer.headers.get("Location"))).size).toBe(1);
    expect((await leaderboard(target)).entries[0]!.trials).toBe(1);
  });

  test("12 parallel trials of one entry, with withdrawals among them, all count", async () => {
    const first = await store(target, key, sampleTrial(2));
    const seeds = Array.from({ length: 12 }, (_, i) => 100 + i);
    const work = [
      ...seeds.map((seed) => store(target, key, sampleTrial(seed))),
      target
        .request(`/v1/trials/${first.id}/withdrawal`, json({ reason: "a test" }, bearer(key)))
        .then(({ status }) => {
          expect(status).toBe(200);
        }),
    ];
    await Promise.all(work);
    const [entry] = (await leaderboard(target)).entries;
    expect(entry!.trials).toBe(13); // the one above, and these twelve; the withdrawn one is gone
  }, 60_000);
});

describe("two isolates of the Worker on one database", () => {
  let one: Target;
  let two: Target;
  beforeAll(async () => {
    const workerd = targets().find(({ name }) => name === "workerd")!;
    one = await workerd.start();
    two = await one.newIsolate!();
  });
  afterAll(async () => {
    await two.stop();
    await one.stop();
  });

  test("interleaved writes to one entry lose nothing", async () => {
    const keys = [await newKey(one), await newKey(two)];
    const stored = await Promise.all(
      Array.from({ length: 20 }, (_, i) => store(i % 2 ? two : one, keys[i % 2]!, sampleTrial(200 + i))),
    );
    expect(new Set(stored.map(({ configuration }) => configuration.id)).size).toBe(1);
    const board = await leaderboard(one);
    expect(board.entries).toHaveLength(1);
    expect(board.entries[0]).toMatchObject({ trials: 20, rooms: 2, submitters: 2 });
    const entry = (await (await two.request(`/v1/entries/${board.entries[0]!.id}`)).json()) as {
      trials: StoredTrial[];
    };
    expect(entry.trials.map(({ id }) => id).sort()).toEqual(stored.map(({ id }) => id).sort());
    // The figure is the one that these trials pool to when nobody else writes.
    const alone = await targets()[0]!.start();
    const key = await newKey(alone);
    const other = await newKey(alone);
    for (let i = 0; i < 20; i++) await store(alone, i % 2 ? other : key, sampleTrial(200 + i));
    expect((await leaderboard(alone)).entries[0]!.cadr.value).toBeCloseTo(board.entries[0]!.cadr.value, 6);
    await alone.stop();
  }, 60_000);
});
