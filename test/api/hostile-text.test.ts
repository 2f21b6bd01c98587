import { afterAll, beforeAll, expect, test } from "vitest";
import { sha256Hex } from "../../db/content-hash.ts";
import { configurationRevisions } from "../../db/schema/configurations.ts";
import { words } from "../../db/schema/identity.ts";
import { results, trialRevisions } from "../../db/schema/trials.ts";
import { newKey, problemOf, store } from "../support/client.ts";
import { type InProcess, startInProcess } from "../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../support/sample-trial.ts";

let target: InProcess;
let key: string;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target);
});
afterAll(() => target.stop());

const refused = async (changes: object) =>
  (await problemOf(await target.request("/v1/trials", json(sampleTrial(1, { ...changes }), bearer(key))), 422)).errors!;

test.each([
  ["NUL", "a\u0000b"],
  ["escape", "a\u001bb"],
  ["a lone high surrogate", "a\ud800b"],
  ["a lone low surrogate", "\udc00"],
])("%s in a text field is refused where it stands", async (_, text) => {
  const room = { volume: { value: 30, unit: "m3" } };
  expect((await refused({ note: text }))[0]!.pointer).toBe("#/note");
  expect((await refused({ specimen: text }))[0]!.pointer).toBe("#/specimen");
  expect((await refused({ room: { ...room, label: text } }))[0]!.pointer).toBe("#/room/label");
  expect((await refused({ aerosol: { kind: "salt", note: text } }))[0]!.pointer).toBe("#/aerosol/note");
  expect((await refused({ counters: [{ id: "c1", position: text }] }))[0]!.pointer).toBe("#/counters/0/position");
  const settings = [{ label: text }];
  const pointers = await refused({ configuration: { ...SAMPLE_CONFIGURATION, title: text, settings } });
  expect(pointers.map(({ pointer }) => pointer)).toEqual(["#/configuration/title", "#/configuration/settings/0/label"]);
  await problemOf(await target.request("/v1/keys", json({ handle: text })), 422);
});

test("line ends, tabs, other scripts and markup come back as they were sent, and every hash holds", async () => {
  const note = 'two\nlines\t"><script>alert(1)</script> \u202eعربى\u202c 👩‍🔬 e\u0301';
  const stored = await store(target, key, sampleTrial(2, { note, specimen: note.slice(0, 60) }));
  expect(stored.note).toBe(note);
  const page = await (await target.request(`/trials/${stored.id}`)).text();
  // The page's own: data for machines, which holds no "<", and the script that copies.
  const own = /<script type="application\/ld\+json">[^<]*<\/script>|<script type="module" src="\/copy\.js"><\/script>/g;
  expect(page.replaceAll(own, "")).not.toContain("<script");
  const { read } = target.deps.db;
  for (const table of [trialRevisions, configurationRevisions, results]) {
    for (const { json: text, sha256 } of await read.select({ json: table.json, sha256: table.sha256 }).from(table)) {
      expect(await sha256Hex(text)).toBe(sha256);
      expect(text).not.toContain("alert(1)");
    }
  }
  for (const { digest, salt, text } of await read.select().from(words)) {
    expect(await sha256Hex(new Uint8Array([...salt!, ...new TextEncoder().encode(text!)]))).toBe(digest);
  }
});

test("a file's name is stored without what no file system allows, and no longer than 255", async () => {
  const rows = Array.from({ length: 300 }, (_, i) => `${i * 10},${(900 * Math.exp(-i / 60) + 5).toFixed(2)}`);
  const trial = sampleTrial(3, { runs: [{ role: "total", file: "log" }] });
  const form = [
    `--cut\r\nContent-Disposition: form-data; name="trial"\r\n\r\n${JSON.stringify(trial)}\r\n`,
    `--cut\r\nContent-Disposition: form-data; name="log"; filename="a\u0000b${"c".repeat(400)}"\r\n`,
    `Content-Type: text/csv\r\n\r\ntime [s],pm2.5 [ug/m3]\n${rows.join("\n")}\r\n--cut--\r\n`,
  ];
  const headers = { ...bearer(key), "Content-Type": "multipart/form-data; boundary=cut" };
  const answer = await target.request("/v1/trials", { method: "POST", headers, body: form.join("") });
  const body = (await answer.json()) as { runs: { file: { name: string } }[] };
  expect([answer.status, answer.status === 201 ? "" : body]).toEqual([201, ""]);
  expect(body.runs[0]!.file.name).toBe(`a\ufffdb${"c".repeat(252)}`);
});
