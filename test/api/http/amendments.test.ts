import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { EntryOut } from "../../../api/wire/entry.ts";
import { leaderboard, newKey, problemOf, type StoredTrial, store } from "../../support/client.ts";
import { settings } from "../../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

type Amended = StoredTrial & { readonly revision: number; readonly interest: string; readonly note?: string };

describe.each(targets())("amendments: $name", ({ start }) => {
  let target: Target;
  let key: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
  });
  afterAll(() => target.stop());

  const amend = (id: string, body: object, by = key) =>
    target.request(`/v1/trials/${id}/revisions`, json({ reason: "put right", ...body }, bearer(by)));
  const amended = async (id: string, body: object, status = 201) => {
    const answer = await amend(id, body);
    const view = (await answer.json()) as Amended;
    expect([answer.status, answer.status === status ? "" : view]).toEqual([status, ""]);
    return view;
  };
  const entryOf = async (trial: StoredTrial) => {
    const { entries } = (await (await target.request(`/v1/trials/${trial.id}`)).json()) as {
      entries: { id: string }[];
    };
    return (await (await target.request(`/v1/entries/${entries[0]!.id}`)).json()) as EntryOut;
  };
  const made = (seed: number, arrangement: string, more = {}) =>
    store(target, key, sampleTrial(seed, { configuration: { ...SAMPLE_CONFIGURATION, arrangement }, ...more }));

  test("who paid is put right: readers see it everywhere, and the earlier revision stays", async () => {
    const trial = await made(8701, "paid");
    const pinned = `/v1/pinned/${trial.id}/1/1.0.0/0.1-1.0`;
    const before = await (await target.request(pinned)).text();
    const now = await amended(trial.id, { interest: "lent_or_given", reason: "I forgot to say that it was lent" });
    expect(now).toMatchObject({ revision: 2, interest: "lent_or_given", state: "listed" });
    expect(now.analysis).toEqual(trial.analysis); // nothing that the analysis reads was changed
    expect(now.history.at(-1)).toMatchObject({ kind: "trial-amended", reason: "I forgot to say that it was lent" });
    const entry = await entryOf(trial);
    expect(entry.bases.all!.interest).toEqual({ lent_or_given: 1 });
    expect(entry.bases.independent!.cadr).toBeNull();
    expect(entry.trials[0]!.interest).toBe("lent_or_given");
    expect(await (await target.request(pinned)).text()).toBe(before);
    const second = await (await target.request(pinned.replace("/1/", "/2/"))).json();
    expect(second).toMatchObject({ pinned: { interest: "lent_or_given", revision: 2 } });
    expect(await (await target.request(pinned.slice(3))).text()).toContain(`/pinned/${trial.id}/2/`);
  });

  test("a window set by hand gives another figure, which counts in place of the first", async () => {
    const trial = await made(8702, "window");
    const { run, n } = { run: 2, n: 0 };
    const windows = [{ phase: "total", n, from: 100, to: 700 }];
    const now = await amended(trial.id, { runs: [{ n: run, windows }] });
    const again = await target.request(
      "/v1/analyses",
      json({ trial: trial.id, windows: [] }), // the stored one, as it is now
    );
    expect(await again.json()).toEqual(now.analysis);
    expect(now.analysis.results[0]!.total.window).toMatchObject({ from: 100, to: 700 });
    expect(now.analysis.results[0]!.cadr.value).not.toBe(trial.analysis.results[0]!.cadr.value);
    const entry = await entryOf(trial);
    expect(entry.trials[0]!.cadr!.value).toBe(now.analysis.results[0]!.cadr.value);
    const [row] = (await leaderboard(target)).entries.filter(({ id }) => id === entry.id);
    expect(row!.cadr.value).toBeCloseTo(now.analysis.results[0]!.cadr.value, 9);
  });

  test("words, conditions and noise; what is left out stays; twice the same is once", async () => {
    const trial = await made(8703, "words", { note: "before", power: { value: 30, unit: "W" } });
    const change = { note: "after", room: { mixing_fan: "off" }, power: { value: 41, unit: "W", u: 1 } };
    const now = await amended(trial.id, change);
    expect(now).toMatchObject({ note: "after", room: { mixing_fan: "off", ventilation: "off" } });
    expect(now.analysis.results[0]!.findings.map(({ code }) => code)).toContain("mixing-not-forced");
    expect((await entryOf(trial)).bases.all!.power!.value).toBe(41);
    const third = await amended(trial.id, { interest: "paid" });
    expect(third).toMatchObject({ revision: 3, note: "after" });
    expect(await amended(trial.id, { interest: "paid" }, 200)).toMatchObject({ revision: 3 });
  });

  test("what cannot be amended is refused, and nothing is stored", async () => {
    const trial = await made(8704, "refused");
    const at = async (body: object) => (await problemOf(await amend(trial.id, body), 422)).errors?.[0]?.pointer;
    expect(await at({ room: { volume: { value: 31, unit: "m3" } } })).toBe("#/room/volume");
    expect(await at({ setting: "low" })).toBe("#/setting");
    expect(await at({ runs: [{ n: 9 }] })).toBe("#/runs/0/n");
    expect(await at({ counters: [{ id: "c2" }] })).toBe("#/counters");
    expect(await at({ reason: "" })).toBe("#/reason");
    const none = await problemOf(await amend(trial.id, { runs: [{ n: 2, from: 0, to: 20 }] }), 422);
    expect(none.code).toBe("no-result");
    await problemOf(await amend(trial.id, { interest: "paid" }, await newKey(target)), 403);
    await problemOf(await amend(trial.id, { interest: "paid" }, settings.operatorKey), 403);
    expect(await (await target.request(`/v1/trials/${trial.id}`)).json()).toMatchObject({ revision: 1, history: [{}] });
    await target.request(`/v1/trials/${trial.id}/withdrawal`, json({ reason: "gone" }, bearer(key)));
    expect((await problemOf(await amend(trial.id, { interest: "paid" }), 409)).code).toBe("withdrawn");
  });
});
