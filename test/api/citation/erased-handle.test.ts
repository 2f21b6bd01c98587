import { afterAll, beforeAll, expect, test } from "vitest";
import { STYLES } from "../../../api/citation/cite.ts";
import { eraseFromTrial } from "../../../api/jobs/erase.ts";
import { verify } from "../../../api/jobs/verify/verify.ts";
import type { EntryOut } from "../../../api/wire/entry.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, settings, startInProcess } from "../../support/in-process.ts";
import { json, sampleTrial } from "../../support/sample-trial.ts";

const HANDLE = "Wanda of Quay Seven";
let target: InProcess;
let trial: StoredTrial;
let pinned: string;
/** Every address at which a trial or its entry is cited, shown or drawn, and what it answered while there was a handle. */
let addresses: string[];
let before: Map<string, string>;

const readAll = async () => {
  const answers = new Map<string, string>();
  for (const path of addresses) {
    const answer = await target.request(path);
    expect([path, answer.status]).toEqual([path, 200]);
    answers.set(path, await answer.text());
  }
  return answers;
};

beforeAll(async () => {
  target = await startInProcess();
  trial = await store(target, await newKey(target, HANDLE), sampleTrial(1));
  pinned = `/pinned/${trial.id}/1/1.0.0/0.1-1.0`;
  const { entries } = (await (await target.request(`/v1/trials/${trial.id}`)).json()) as { entries: { id: string }[] };
  const entry = entries[0]!.id;
  const { bases } = (await (await target.request(`/v1/entries/${entry}`)).json()) as EntryOut;
  const pinnedEntry = `/pinned/${entry}/all/${bases.all!.as_of_seq}`;
  addresses = [
    ...Object.keys(STYLES).flatMap((style) => [
      `/v1/trials/${trial.id}/citation?style=${style}`,
      `/v1/citation?style=${style}&of=${pinned}`,
      `/v1/entries/${entry}/citation?style=${style}`,
    ]),
    `/oembed?url=${encodeURIComponent(`${settings.publicUrl}${pinned}`)}`,
    `/oembed?url=${encodeURIComponent(`${settings.publicUrl}/trials/${trial.id}`)}`,
    ...["", "/card.svg", "/badge.svg", "/decay.svg"].map((part) => `${pinned}${part}`),
    ...["", "/card.svg", "/badge.svg", "/rooms.svg"].map((part) => `${pinnedEntry}${part}`),
    `/v1${pinned}`,
    `/v1${pinnedEntry}`,
    `/trials/${trial.id}`,
    `/entries/${entry}`,
    `/v1/trials/${trial.id}`,
    `/v1/entries/${entry}`,
    "/",
    "/v1/leaderboard",
  ];
  before = await readAll();
  const { db, now } = target.deps;
  expect(await eraseFromTrial(db, trial.id, "handle", "asked for by her", now().toISOString())).toBe(1);
}, 60_000);
afterAll(() => target.stop());

const submitter = () => (trial as unknown as { submitter: { id: string } }).submitter.id;

test("a handle stood in every citation of a trial, and in none of an entry", () => {
  for (const [path, text] of before) {
    if (path.includes("/citation")) expect([path, text.includes(HANDLE)]).toEqual([path, !path.includes("/entries/")]);
    if (path.startsWith("/oembed")) expect(JSON.parse(text)).toMatchObject({ author_name: HANDLE });
  }
});

test("once it is erased, a trial is cited by its submitter's id in every style, and the name stands nowhere", async () => {
  for (const [path, text] of await readAll()) {
    expect([path, text.includes(HANDLE)]).toEqual([path, false]);
    if (path.includes("trials/") || path.includes(`of=${pinned}`) || path === pinned) {
      expect([path, text.includes(submitter())]).toEqual([path, true]);
    }
    if (path.startsWith("/oembed")) {
      expect(JSON.parse(text)).toMatchObject({ author_name: `Motefall submitter ${submitter()}` });
    }
  }
});

test("nothing but the name is another: figures, addresses and hashes are as they were", async () => {
  for (const [path, text] of await readAll()) {
    if (path.startsWith("/v1/pinned")) expect(text).toBe(before.get(path));
    if (path.includes("style=plain") || path.includes("style=ris")) {
      expect(text).toBe(before.get(path)!.replace(HANDLE, `Motefall submitter ${submitter()}`));
    }
  }
  expect((await verify(target.deps.db.read, 1)).damages).toEqual([]);
});

test("where there is no handle none is erased, and the same name of somebody else is a word of its own", async () => {
  const key = await newKey(target);
  const other = await store(target, key, sampleTrial(2));
  const { db, now } = target.deps;
  expect(await eraseFromTrial(db, other.id, "handle", "none was given", now().toISOString())).toBe(0);
  const answer = await target.request(`/v1/keys`, json({ handle: HANDLE }));
  expect(answer.status).toBe(201); // the same words of somebody else are another word
  const view = await (await target.request(`/v1/trials/${trial.id}`)).text();
  expect(view).not.toContain(HANDLE);
});
