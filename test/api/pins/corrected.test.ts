import { afterEach, beforeEach, expect, test } from "vitest";
import { METHOD_VERSION } from "../../../analysis/method-version.ts";
import { newKey, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { listPins } from "../../support/pinned-answers.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";

let target: InProcess;
let key: string;
let trial: string;
let pin: string;
let entry: string;
beforeEach(async () => {
  target = await startInProcess();
  key = await newKey(target);
  trial = (await store(target, key, sampleTrial(1))).id;
  pin = `/pinned/${trial}/1/${METHOD_VERSION}/0.1-1.0`;
  entry = (await listPins(target.databaseUrl)).find((path) => /ent-.*\/independent\//.test(path))!;
});
afterEach(() => target.stop());

const read = async (path: string) => (await target.request(path)).text();
const amend = async (body: object) =>
  expect((await target.request(`/v1/trials/${trial}/revisions`, json(body, bearer(key)))).status).toBe(201);
const paid = "tested by its maker or seller";
const places = (path: string) => [
  path,
  `/v1/citation?of=${path}`,
  `/v1/citation?style=ris&of=${path}`,
  `${path}/card.svg`,
  `${path}/badge.svg`,
];

test("who paid, put right, is seen wherever the earlier figure was quoted, also once it is withdrawn", async () => {
  const before = [await read(`/v1${pin}`), await read(`/v1${entry}`)];
  const card = await target.request(`${pin}/card.png`);
  for (const path of [...places(pin), ...places(entry)]) expect(await read(path)).not.toContain("orrected");
  await amend({ reason: "I forgot that we sell it", interest: "maker_or_seller" });
  await amend({ reason: "A note more", note: "Its door was shut." });
  for (const path of [...places(pin), ...places(entry)]) {
    expect([path, await read(path)]).toEqual([path, expect.stringMatching(/[Cc]orrected/)]);
    expect(await read(path)).toContain(paid);
  }
  expect(await read(pin)).toContain(`Who paid was corrected to: ${paid}`);
  expect(await read(pin)).toContain("I forgot that we sell it");
  expect(await read(`/v1/citation?of=${pin}`)).toContain(`[Corrected: ${paid}] Clean air delivery rate`);
  expect([await read(`/v1${pin}`), await read(`/v1${entry}`)]).toEqual(before);
  const links = (await target.request(`/v1${pin}`)).headers.get("Link");
  expect(links).toContain(`/v1/trials/${trial}/revisions>; rel="version-history"`);
  expect(await (await target.request(`${pin}/card.png`)).bytes()).not.toEqual(await card.bytes());

  const reason = json({ reason: "It leaked." }, bearer(key));
  expect((await target.request(`/v1/trials/${trial}/withdrawal`, reason)).status).toBe(200);
  for (const path of [...places(pin), ...places(entry)]) {
    const text = await read(path);
    expect(text).toContain(paid);
    expect(text).toMatch(/[Ww]ithdrawn/);
  }
});

test("what was in the air is put right in the same way; another amendment corrects nothing of it", async () => {
  await amend({ reason: "A note more", note: "Its door was shut." });
  expect(await read(pin)).not.toContain("was corrected to");
  await amend({ reason: "It was incense", aerosol: { kind: "incense" } });
  expect(await read(pin)).toContain("The aerosol was corrected to: incense");
  expect(await read(`/v1/citation?of=${pin}`)).toContain("the aerosol was corrected to: incense");
  const newest = `/pinned/${trial}/3/${METHOD_VERSION}/0.1-1.0`;
  expect(await read(newest)).not.toContain("was corrected to");
});
