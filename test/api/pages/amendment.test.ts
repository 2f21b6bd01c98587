import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { newKey, store } from "../../support/client.ts";
import { type InProcess, settings, startInProcess } from "../../support/in-process.ts";
import { sampleTrial } from "../../support/sample-trial.ts";

describe("what was said of a test is put right by a form, without scripts", () => {
  let target: InProcess;
  let key: string;
  let trial: string;
  let place: string;
  beforeEach(async () => {
    target = await startInProcess();
    key = await newKey(target);
    const aerosol = { kind: "salt", note: "from a lamp" };
    trial = (await store(target, key, sampleTrial(1, { note: "Its door\nwas shut.", aerosol }))).id;
    place = `/trials/${trial}/amendment`;
  });
  afterEach(() => target.stop());

  const send = (fields: Record<string, string>, headers: Record<string, string> = {}) => {
    const body = new FormData();
    for (const [name, value] of Object.entries(fields)) body.set(name, value);
    return target.request(place, { method: "POST", body, headers });
  };
  const record = async () => (await (await target.request(`/v1/trials/${trial}`)).json()) as Record<string, unknown>;

  test("the trial's page leads to it; it holds what the record says, and comes back with what is wrong and no key", async () => {
    expect(await (await target.request(`/trials/${trial}`)).text()).toContain(`href="${place}"`);
    const form = await (await target.request(place)).text();
    expect(form).toContain('<option value="independent" selected');
    expect(form).toContain('<option value="salt" selected');
    expect(form).toContain("Its door\nwas shut.</textarea>");
    const interest = "paid";
    const reason = "I forgot";
    const cases: [Record<string, string>, string][] = [
      [{ interest, reason }, "The key that the test was published with is needed."],
      [{ interest, reason, key: "mote_nonsense" }, "mistyped"],
      [{ interest, reason, key: await newKey(target) }, "published with another key"],
      [{ interest, reason, key: settings.operatorKey! }, "submitter&#39;s to say"],
      [{ interest, key }, "Say why"],
      [{ interest: "nobody", reason, key }, "Choose from the lists."],
      [{ aerosol: "", reason, key }, "Choose from the lists."],
      [{ note: "x".repeat(4001), reason, key }, "at most 4000"],
      [{ reason, key }, "says all of this already"],
      [{ interest: "independent", aerosol: "salt", note: "Its door\r\nwas shut.", reason, key }, "already"],
    ];
    for (const [fields, words] of cases) {
      const answer = await send(fields);
      const html = await answer.text();
      expect([fields, answer.status, html.includes(words)]).toEqual([fields, 422, true]);
      expect(html).not.toContain(fields.key ?? "mote_");
    }
    expect(await (await send({ interest, reason })).text()).toContain('<option value="paid" selected');
    expect((await send({ interest, reason, key }, { "Sec-Fetch-Site": "cross-site" })).status).toBe(422);
    expect((await record()).revision).toBe(1);
    expect((await target.request("/trials/trl-none/amendment")).status).toBe(404);
  });

  test("who paid, aerosol and note are put right; what else was said stays; withdrawn, there is no form", async () => {
    const fields = { interest: "maker_or_seller", aerosol: "incense", note: "", reason: "We sell it" };
    const done = await send({ ...fields, key: ` ${key.slice(0, 20)}\n${key.slice(20)}` });
    expect([done.status, done.headers.get("Location")]).toEqual([303, `/trials/${trial}`]);
    const now = await record();
    expect(now).toMatchObject({
      revision: 2,
      interest: "maker_or_seller",
      aerosol: { kind: "incense", note: "from a lamp" },
    });
    expect(now.note).toBeUndefined();
    const html = await (await target.request(`/trials/${trial}`)).text();
    expect(html).toContain("We sell it");
    expect(html).toContain("from “bought or built by the tester” to “tested by its maker or seller”");
    const body = new FormData();
    body.set("key", key);
    body.set("reason", "It leaked.");
    await target.request(`/trials/${trial}/withdrawal`, { method: "POST", body });
    expect(await (await target.request(place)).text()).not.toContain("<form");
    expect((await send({ interest: "paid", reason: "r", key })).status).toBe(409);
  });
});
