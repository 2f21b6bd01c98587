import { createHash } from "node:crypto";
import { parseDictionary } from "structured-headers";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { EntryOut } from "../../../api/wire/entry.ts";
import { PinnedResult } from "../../../api/wire/pinned.ts";
import { canonicalJson } from "../../../db/content-hash.ts";
import { leaderboard, newKey, problemOf, type StoredTrial, store } from "../../support/client.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

describe.each(targets())("$name", ({ start }) => {
  let target: Target;
  let key: string;
  let stored: StoredTrial;
  let trialPath: string;
  let entryPath: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
    stored = await store(target, key, sampleTrial(1));
    const band = stored.analysis.results.find(({ band }) => band.kind === "standard")!.band.name;
    trialPath = `/pinned/${stored.id}/1/${stored.analysis.method_version}/${band}`;
    const { id } = (await leaderboard(target, `?band=${band}&unpaired=include`)).entries[0]!;
    const entry = (await (await target.request(`/v1/entries/${id}`)).json()) as EntryOut;
    entryPath = `/pinned/${id}/all/${entry.bases.all!.as_of_seq}`;
  }, 60_000);
  afterAll(() => target.stop());

  const read = async (path: string) => {
    const answer = await target.request(`/v1${path}`);
    expect(answer.status).toBe(200);
    return PinnedResult.strict().parse(await answer.json());
  };
  const withdraw = (id: string, reason: string) =>
    target.request(`/v1/trials/${id}/withdrawal`, json({ reason }, bearer(key)));

  test("a trial's and an entry's figures are those of their records, and hash to what is said", async () => {
    const trial = await read(trialPath);
    const { cadr } = stored.analysis.results.find(({ band }) => band.name === trial.pinned.band)!;
    expect(trial.pinned.cadr).toEqual(cadr);
    expect(trial.pinned.cadr_cfm.value).toBeCloseTo(cadr.value / 1.699_010_795_52, 9); // 0.3048³ m³ × 60, by definition of the foot
    const entry = await read(entryPath);
    expect(entry.pinned).toMatchObject({ kind: "entry", trials: 1, members: [{ trial: stored.id, revision: 1 }] });
    for (const { pinned, sha256 } of [trial, entry]) {
      expect(createHash("sha256").update(canonicalJson(pinned)).digest("hex")).toBe(sha256);
      expect(JSON.stringify(pinned)).not.toContain("an invented trial of the tests"); // no word that can be erased
    }
  });

  test("a channel is pinned by its encoded name", async () => {
    const { name } = stored.analysis.results.find(({ band }) => band.kind === "channel")!.band;
    expect(name).toContain("/");
    const path = trialPath.replace(/[^/]+$/, encodeURIComponent(name));
    expect((await read(path)).pinned).toMatchObject({ band: name, path });
  });

  test.each([
    ["pinned JSON", () => `/v1${trialPath}`],
    ["pinned JSON of an entry", () => `/v1${entryPath}`],
    ["series", () => `/v1/trials/${stored.id}/runs/0/series.csv`],
  ])("%s carries the digest of its bytes as an outside parser reads it", async (_, path) => {
    const answer = await target.request(path());
    const digest = parseDictionary(answer.headers.get("Repr-Digest")!).get("sha-256")![0] as ArrayBuffer;
    const bytes = Buffer.from(await answer.arrayBuffer());
    expect(Buffer.from(digest).toString("hex")).toBe(createHash("sha256").update(bytes).digest("hex"));
  });

  test("an uploaded file carries it too", async () => {
    const bytes = Buffer.from(`t,0.3-1.0 um\n${Array.from({ length: 400 }, (_, i) => line(i)).join("\n")}\n`);
    const { runs: _, ...trial } = sampleTrial(3);
    const form = new FormData();
    const run = { role: "total", file: "log", columns: COLUMNS };
    form.set("trial", JSON.stringify({ ...trial, runs: [run] }));
    form.set("log", new File([bytes], "log.csv", { type: "text/csv" }));
    const posted = await target.request("/v1/trials", { method: "POST", headers: bearer(key), body: form });
    expect([posted.status, posted.ok ? "" : await posted.clone().text()]).toEqual([201, ""]);
    const { id } = (await posted.json()) as { id: string };
    const answer = await target.request(`/v1/trials/${id}/runs/0/file`);
    const digest = parseDictionary(answer.headers.get("Repr-Digest")!).get("sha-256")![0] as ArrayBuffer;
    expect(Buffer.from(digest).toString("hex")).toBe(createHash("sha256").update(bytes).digest("hex"));
  });

  test("answers may be kept and asked for again, and name the record as it is now", async () => {
    const answer = await target.request(`/v1${entryPath}`);
    expect(answer.headers.get("Cache-Control")).toMatch(/^public, max-age=3600\b/); // a withdrawal may still come
    const id = entryPath.split("/")[2];
    expect(answer.headers.get("Link")).toContain(`/v1/entries/${id}>; rel="latest-version"`);
    const tag = answer.headers.get("ETag")!;
    const again = await target.request(`/v1${entryPath}`, { headers: { "If-None-Match": tag } });
    expect([again.status, again.headers.get("ETag")]).toEqual([304, tag]);
  });

  test.each([
    ["a revision there is not", () => trialPath.replace("/1/1.", "/2/1."), 404],
    ["a method there is not", () => trialPath.replace("/1.", "/7."), 404],
    ["a number written otherwise", () => trialPath.replace("/1/1.", "/01/1."), 404],
    ["a band there is not", () => trialPath.replace(/[^/]+$/, "9-10"), 404],
    ["an event that pooled nothing", () => entryPath.replace(/\d+$/, "999999"), 404],
    ["a basis there is not", () => entryPath.replace("/all/", "/some/"), 404],
    ["a mistyped id", () => entryPath.replace(/ent-./, "ent-!"), 404],
  ])("%s is not found, as data or page", async (_, path, status) => {
    await problemOf(await target.request(`/v1${path()}`), status);
    expect((await target.request(path())).status).toBe(status);
  });

  test("when withdrawn, both say so with reason and date, and the numbers stay", async () => {
    const before = [await read(trialPath), await read(entryPath)];
    expect((await withdraw(stored.id, "The counter <was> broken.")).status).toBe(200);
    const after = [await read(trialPath), await read(entryPath)];
    for (const [i, { pinned, sha256, withdrawn }] of after.entries()) {
      expect([pinned, sha256]).toEqual([before[i]!.pinned, before[i]!.sha256]);
      expect(withdrawn?.reason).toBe("The counter <was> broken.");
      expect(Date.parse(withdrawn!.at)).toBeGreaterThan(0);
    }
    const answer = await target.request(`/v1${trialPath}`);
    expect(answer.headers.get("Cache-Control")).toContain("immutable"); // a withdrawal is for good
    const page = await (await target.request(trialPath)).text();
    expect(page).toMatch(/<span class="struck"><span class="q">/);
    expect(page).toContain("The counter &lt;was&gt; broken.");
    expect(page).toContain(`Withdrawn on ${after[0]!.withdrawn!.at.slice(0, 10)}`);
  });

  test("the withdrawn trial stays under its id as data and page, and no list shows it as current", async () => {
    const trial = (await (await target.request(`/v1/trials/${stored.id}`)).json()) as StoredTrial;
    expect(trial).toMatchObject({ state: "withdrawn", withdrawn: { reason: "The counter <was> broken." } });
    expect(await (await target.request(`/trials/${stored.id}`)).text()).toContain('class="struck"');
    const again = await store(target, key, sampleTrial(4)); // of the same configuration
    expect(again.id).not.toBe(stored.id);
    const id = entryPath.split("/")[2]!;
    const entry = (await (await target.request(`/v1/entries/${id}`)).json()) as EntryOut;
    expect(entry.trials.find((one) => one.id === stored.id)?.state).toBe("withdrawn");
    const now = await read(`/pinned/${id}/all/${entry.bases.all!.as_of_seq}`);
    expect(now.pinned.kind === "entry" && now.pinned.members.map(({ trial }) => trial)).not.toContain(stored.id);
  });
});

const COLUMNS = {
  t: { column: "t", unit: "s" },
  channels: [{ column: "0.3-1.0 um", id: "n1", quantity: "number", unit: "1/cm3", from_um: 0.3, to_um: 1 }],
};
/** Falls by half each five minutes to a background of 6. */
const line = (i: number) => `${10 * i},${(6 + 900 * 2 ** (-i / 30) + Math.sin(i)).toFixed(2)}`;
