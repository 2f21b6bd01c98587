import { afterAll, beforeAll, expect, test } from "vitest";
import { newKey, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { json, sampleTrial } from "../../support/sample-trial.ts";

let target: InProcess;
beforeAll(async () => {
  target = await startInProcess();
});
afterAll(() => target.stop());

test("a tester answers a question by a form, with the key; nobody else can", async () => {
  const key = await newKey(target);
  const { id } = await store(target, key, sampleTrial(1));
  const asked = await target.request(`/v1/trials/${id}/questions`, json({ question: "Was the door shut?" }));
  const { questions } = (await asked.json()) as { questions: { id: string }[] };
  const place = `/questions/${questions[0]!.id}/answer`;
  const page = async () => (await target.request(`/trials/${id}`)).text();
  expect(await page()).toContain(`href="${place}"`);
  expect(await (await target.request(place)).text()).toContain("Was the door shut?");
  const send = (fields: Record<string, string>, headers = {}) => {
    const body = new FormData();
    for (const [name, value] of Object.entries(fields)) body.set(name, value);
    return target.request(place, { method: "POST", body, headers });
  };
  const answer = "It was,\r\nall the time.";
  for (const fields of [{ answer }, { key }, { key, answer: " " }, { key: await newKey(target), answer }]) {
    const html = await send(fields as Record<string, string>);
    expect(html.status).toBe(422);
    expect(await html.text()).not.toContain(key);
  }
  expect((await send({ key, answer }, { "Sec-Fetch-Site": "cross-site" })).status).toBe(422);
  expect(await page()).toContain("No answer yet.");
  const done = await send({ key, answer });
  expect([done.status, done.headers.get("Location")]).toEqual([303, `/trials/${id}#${questions[0]!.id}`]);
  expect(await page()).toContain("It was,\nall the time.");
  expect((await target.request("/questions/qst-none/answer")).status).toBe(404);
});
