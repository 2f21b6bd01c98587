import { createHash } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { gunzipSync, gzipSync } from "node:zlib";
import { createClient } from "@libsql/client";
import { afterAll, beforeAll, expect, test } from "vitest";
import { createApp } from "../../../api/app.ts";
import { dumpRegistry } from "../../../api/jobs/dump/dump-registry.ts";
import { restore } from "../../../api/jobs/dump/restore.ts";
import { eraseFromTrial } from "../../../api/jobs/erase.ts";
import { verify } from "../../../api/jobs/verify/verify.ts";
import { dumpsIn } from "../../../api/node-dumps.ts";
import { type InProcess, openTemporary, startInProcess } from "../../support/in-process.ts";
import { operate } from "../../support/random-registry.ts";
import { tableContents } from "../../support/table-contents.ts";

let target: InProcess;
const folder = mkdtempSync(join(tmpdir(), "motefall-dump-"));
beforeAll(async () => {
  target = await startInProcess();
  await operate(target, 6, 60);
}, 60_000);
afterAll(async () => {
  await target.stop();
  rmSync(folder, { recursive: true });
});

const dumped = (into = folder) => dumpRegistry({ url: target.databaseUrl }, into);

const LISTS = ["", "?band=0.5-3.0", "?basis=independent&unpaired=include", "?unpaired=include&limit=200"];

test("a dump restored into an empty database gives the same list, pinned results and rows, to the byte", async () => {
  const made = await dumped();
  const again = await openTemporary();
  const { differing, rows } = await restore(made, { url: again.databaseUrl }, again.deps.db);
  expect(differing).toEqual([]);
  expect(rows).toBeGreaterThan(400);
  const restored = createApp(() => again.deps);
  const [was, is] = [
    async (path: string) => (await target.request(path)).text(),
    async (path: string) => (await restored.request(path)).text(),
  ];
  for (const query of LISTS) expect(await is(`/v1/leaderboard${query}`)).toBe(await was(`/v1/leaderboard${query}`));
  const { entries } = JSON.parse(await was("/v1/leaderboard?unpaired=include")) as { entries: { id: string }[] };
  for (const { id } of entries) {
    const { bases } = JSON.parse(await was(`/v1/entries/${id}`)) as { bases: { all: { as_of_seq: number } } };
    const pinned = `/v1/pinned/${id}/all/${bases.all.as_of_seq}`;
    expect(await is(pinned)).toBe(await was(pinned));
  }
  const clients = [target.databaseUrl, again.databaseUrl].map((url) => createClient({ url }));
  const [before, after] = await Promise.all(clients.map(tableContents));
  expect(after).toEqual(before);
  for (const client of clients) client.close();
  expect((await verify(again.deps.db.read, 3)).damages).toEqual([]);

  const second = await dumpRegistry({ url: again.databaseUrl }, join(folder, "second"));
  for (const place of ["open", "kept"]) {
    for (const name of readdirSync(join(made, place))) {
      expect(readFileSync(join(second, place, name))).toEqual(readFileSync(join(made, place, name)));
    }
  }
  await again.discard();
});

test("what is given away holds no key, says what each column is, and is served with its digest", async () => {
  const made = await dumped();
  expect(readdirSync(join(made, "open")).join()).not.toContain("keys");
  const readme = readFileSync(join(made, "open", "README.md"), "utf8");
  expect(readme).toContain("## pooled.ndjson.gz");
  expect(readme).toContain("### 1.0.0");
  const app = createApp(() => ({ ...target.deps, dumps: dumpsIn(folder) }));
  const { dumps } = (await (await app.request("/v1/dumps")).json()) as {
    dumps: { files: { name: string; url: string; bytes: number; sha256: string }[] }[];
  };
  const trials = dumps[0]!.files.find(({ name }) => name === "trials.ndjson.gz")!;
  const answer = await app.request(new URL(trials.url).pathname);
  const bytes = new Uint8Array(await answer.arrayBuffer());
  expect(bytes).toHaveLength(trials.bytes);
  const digest = Buffer.from(await crypto.subtle.digest("SHA-256", bytes));
  expect(digest.toString("hex")).toBe(trials.sha256);
  expect(answer.headers.get("Repr-Digest")).toBe(`sha-256=:${digest.toString("base64")}:`);
  expect(gunzipSync(bytes).toString().split("\n")[0]).toContain('"content_mac":{"base64":"');
  const kept = new URL(trials.url).pathname.replace("trials", "..%2Fkept%2Fkeys");
  expect((await app.request(kept)).status).toBe(404);
});

test("an erasure is in the next dump of the same name, which no cache keeps from before", async () => {
  const into = join(folder, "erased");
  const [trial] = await target.deps.db.read.all<{ id: string }>("SELECT id FROM trials ORDER BY id LIMIT 1");
  const first = await dumped(into);
  const app = createApp(() => ({ ...target.deps, dumps: dumpsIn(into) }));
  const path = `/v1/dumps/${basename(first)}/words.ndjson.gz`;
  const before = await app.request(path);
  const wordsOf = async (answer: Response) => gunzipSync(new Uint8Array(await answer.arrayBuffer())).toString();
  const was = await wordsOf(before);
  await eraseFromTrial(target.deps.db, trial!.id, "words", "asked to", "2026-11-01T00:00:00.000Z");
  expect(await dumped(into)).toBe(first);
  expect(before.headers.get("Cache-Control")).toContain("no-cache");
  const kept = { headers: { "If-None-Match": before.headers.get("ETag")! } };
  const after = await app.request(path, kept);
  expect(after.status).toBe(200);
  expect((await wordsOf(after)).split('"text":null').length).toBeGreaterThan(was.split('"text":null').length);
  expect((await app.request(path, { headers: { "If-None-Match": after.headers.get("ETag")! } })).status).toBe(304);
});

test("an empty registry, and one without keys, are dumped and come back", async () => {
  const [from, into, stranger] = [await openTemporary(), await openTemporary(), await openTemporary()];
  const made = await dumpRegistry({ url: from.databaseUrl }, join(folder, "empty"));
  expect((await restore(made, { url: into.databaseUrl }, into.deps.db)).differing).toEqual([]);
  expect((await verify(into.deps.db.read, 1)).damages).toEqual([]);
  const given = await dumped(join(folder, "given"));
  rmSync(join(given, "kept"), { recursive: true });
  expect((await restore(given, { url: stranger.databaseUrl }, stranger.deps.db)).differing).toEqual([]);
  expect((await verify(stranger.deps.db.read, 1)).damages).toEqual([]);
  for (const one of [from, into, stranger]) await one.discard();
});

test("a damaged or half written dump, and a database that holds something, are refused", async () => {
  const made = await dumped(join(folder, "damaged"));
  const empty = await openTemporary();
  const path = join(made, "open", "trials.ndjson.gz");
  const whole = readFileSync(path);
  writeFileSync(path, whole.with(20, whole[20]! ^ 1));
  await expect(restore(made, { url: empty.databaseUrl }, empty.deps.db)).rejects.toThrow(
    "open/trials.ndjson.gz is damaged",
  );
  writeFileSync(path, whole);
  const sums = readFileSync(join(made, "open", "SHA256SUMS"), "utf8");
  writeFileSync(join(made, "open", "SHA256SUMS"), sums.replace(/.*trials\.ndjson\.gz\n/, ""));
  await expect(restore(made, { url: empty.databaseUrl }, empty.deps.db)).rejects.toThrow("is not in SHA256SUMS");
  const strange = gzipSync('{"trial, revision) SELECT 1, 2 --":1}\n');
  writeFileSync(path, strange);
  const hash = createHash("sha256").update(strange).digest("hex");
  writeFileSync(join(made, "open", "SHA256SUMS"), sums.replace(/.*(?= {2}trials\.ndjson\.gz\n)/, hash));
  await expect(restore(made, { url: empty.databaseUrl }, empty.deps.db)).rejects.toThrow("trials has no column");
  writeFileSync(path, whole);
  rmSync(join(made, "open", "SHA256SUMS"));
  await expect(restore(made, { url: empty.databaseUrl }, empty.deps.db)).rejects.toThrow("no whole dump");
  await empty.discard();
  await expect(restore(await dumped(), { url: target.databaseUrl }, target.deps.db)).rejects.toThrow("not empty");
});
