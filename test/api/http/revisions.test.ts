import { afterAll, beforeAll, expect, test } from "vitest";
import type { Revision } from "../../../api/wire/revisions.ts";
import { newKey, problemOf, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";

let target: InProcess;
let trial: StoredTrial;
beforeAll(async () => {
  target = await startInProcess();
  const key = await newKey(target);
  trial = await store(target, key, sampleTrial(1, { note: "first" }));
  for (const body of [
    { reason: "It is ours", interest: "maker_or_seller" },
    { reason: "Said better", note: "second", aerosol: { kind: "incense" } },
  ]) {
    const sent = json(body, bearer(key));
    expect((await target.request(`/v1/trials/${trial.id}/revisions`, sent)).status).toBe(201);
  }
});
afterAll(() => target.stop());

test("every revision is listed with what it changed, why, and its pinned results", async () => {
  const answer = await target.request(`/v1/trials/${trial.id}/revisions`);
  const { revisions } = (await answer.json()) as { revisions: Revision[] };
  expect(revisions).toMatchObject([
    { revision: 1, reason: null, interest: "independent", changed: [], sha256: trial.sha256 },
    { revision: 2, reason: "It is ours", interest: "maker_or_seller", changed: ["interest"] },
    {
      revision: 3,
      reason: "Said better",
      interest: "maker_or_seller",
      aerosol: "incense",
      changed: ["aerosol", "note"],
    },
  ]);
  for (const { revision, interest, sha256, results } of revisions) {
    expect(results.length).toBe(trial.analysis.results.length);
    const { pinned } = (await (await target.request(new URL(results[0]!.url).pathname)).json()) as {
      pinned: { revision: number; interest: string; record_sha256: string };
    };
    expect(pinned).toMatchObject({ revision, interest, record_sha256: sha256 });
  }
  await problemOf(await target.request("/v1/trials/trl-0000000000F/revisions"), 404);
});

test("a revision asked of the trial's own address is refused, not answered by the newest", async () => {
  const problem = await problemOf(await target.request(`/v1/trials/${trial.id}?revision=1`), 422);
  expect(problem.detail).toContain("revision");
});

test("the page says what each amendment changed, and leads to the figures before it", async () => {
  const html = await (await target.request(`/trials/${trial.id}`)).text();
  expect(html).toContain("who paid, from “bought or built by the tester” to “tested by its maker or seller”");
  expect(html).toMatch(/Revision 3 changed the aerosol, from “[^”]+” to “incense”; the note\./);
  expect(html).toContain(`href="/pinned/${trial.id}/1/1.0.0/0.1-1.0"`);
  expect(html).toContain(`href="/pinned/${trial.id}/2/1.0.0/0.1-1.0"`);
});
