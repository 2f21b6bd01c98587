import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { leaderboard, newKey, problemOf, store } from "../../support/client.ts";
import { settings } from "../../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

let seed = 7000;

describe.each(targets())("merges: $name", ({ start }) => {
  let target: Target;
  let key: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
  });
  afterAll(() => target.stop());

  const operator = bearer(settings.operatorKey);
  const merge = (id: string, into: string, headers = operator) =>
    target.request(`/v1/configurations/${id}/merge`, json({ into, reason: "the same box" }, headers));
  const named = (arrangement: string, labels = ["Low", "High"]) => ({
    ...SAMPLE_CONFIGURATION,
    arrangement,
    settings: labels.map((label) => ({ label })),
  });
  const trialOf = (configuration: unknown, setting: string) =>
    store(target, key, sampleTrial(seed++, { configuration, setting }));
  const entriesOf = async (configuration: string) =>
    (await leaderboard(target, "?limit=200")).entries.filter((entry) => entry.configuration.id === configuration);

  test("trials of the one count in the other, setting by setting; the old id answers 308", async () => {
    const one = await trialOf(named("a panel", ["high ", "Turbo"]), "HIGH");
    const turbo = await trialOf(named("a panel", ["high ", "Turbo"]), "turbo");
    const other = await trialOf(named("one panel"), "high");
    const [from, into] = [one.configuration.id, other.configuration.id];
    const before = (await entriesOf(from)).map(({ id }) => id);
    expect(before.length).toBe(2);

    const merged = await merge(from, into);
    expect([merged.status, merged.headers.get("Location")]).toEqual([200, `/v1/configurations/${into}`]);
    const old = await target.request(`/v1/configurations/${from}`, { redirect: "manual" });
    expect([old.status, old.headers.get("Location")]).toEqual([308, `/v1/configurations/${into}`]);
    expect(await entriesOf(from)).toEqual([]);
    const now = await entriesOf(into);
    expect(now.map(({ setting, trials }) => [setting, trials]).sort()).toEqual([
      ["High", 2],
      ["Turbo", 1],
    ]);

    const whole = (await (await target.request(`/v1/configurations/${into}`)).json()) as {
      settings: { label: string }[];
      trials: { id: string }[];
    };
    expect(whole.settings.map(({ label }) => label)).toEqual(["Low", "High", "Turbo"]);
    expect(whole.trials.map(({ id }) => id).sort()).toEqual([one.id, turbo.id, other.id].sort());
    const gone = await target.request(`/v1/entries/${before[0]}`, { redirect: "manual" });
    expect([gone.status, now.map(({ id }) => `/v1/entries/${id}`)]).toEqual([
      308,
      expect.arrayContaining([gone.headers.get("Location")]),
    ]);

    // Whoever sends the old parts, or the old id, adds to the new one; a trial from before can still be withdrawn.
    const again = await trialOf(named("a panel", ["high ", "Turbo"]), "high");
    const byId = await trialOf(from, "turbo");
    expect([again.configuration.id, byId.configuration.id]).toEqual([into, into]);
    const withdrawn = await target.request(`/v1/trials/${one.id}/withdrawal`, json({ reason: "a test" }, bearer(key)));
    expect(withdrawn.status).toBe(200);
    expect((await entriesOf(into)).map(({ setting, trials }) => [setting, trials]).sort()).toEqual([
      ["High", 2],
      ["Turbo", 2],
    ]);
  });

  test("a chain of merges is followed, and real and invented trials stay apart", async () => {
    const [a, b, c] = [
      await trialOf(named("first"), "low"),
      await trialOf(named("second"), "low"),
      await trialOf(named("third"), "low"),
    ];
    await store(target, key, sampleTrial(seed++, { configuration: named("first"), setting: "low", invented: true }));
    const [first, second, third] = [a.configuration.id, b.configuration.id, c.configuration.id];
    expect((await merge(first, second)).status).toBe(200);
    expect((await merge(second, third)).status).toBe(200);
    const found = await entriesOf(third);
    expect(found.map(({ invented, trials }) => [invented, trials]).sort()).toEqual([
      [false, 3],
      [true, 1],
    ]);
    const late = await trialOf(first, "low");
    expect(late.configuration.id).toBe(third);
  });

  test("what cannot be merged is refused, and nothing changes", async () => {
    const [a, b, c] = [
      await trialOf(named("x"), "low"),
      await trialOf(named("y"), "low"),
      await trialOf(named("z"), "low"),
    ];
    const [x, y, z] = [a.configuration.id, b.configuration.id, c.configuration.id];
    await problemOf(await merge(x, y, {} as typeof operator), 401);
    await problemOf(await merge(x, y, bearer(key)), 403);
    const itself = await problemOf(await merge(x, x), 422);
    expect(itself.errors?.[0]?.pointer).toBe("#/into");
    const unknown = await problemOf(await merge(x, `${x.slice(0, -1)}!`), 422);
    expect(unknown.errors?.[0]?.pointer).toBe("#/into");
    expect((await merge(x, y)).status).toBe(200);
    expect(await problemOf(await merge(x, z), 409)).toMatchObject({ code: "already-merged", merged_into: y });
    expect(await problemOf(await merge(x, y), 409)).toMatchObject({ code: "already-merged", merged_into: y });
    expect(await problemOf(await merge(z, x), 409)).toMatchObject({
      code: "already-merged",
      errors: [{ pointer: "#/into" }],
    });
    expect((await entriesOf(z)).map(({ trials }) => trials)).toEqual([1]);
    expect((await entriesOf(y)).map(({ trials }) => trials)).toEqual([2]);
  });
});
