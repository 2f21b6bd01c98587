import { afterAll, beforeAll, expect, test } from "vitest";
import { eraseFromTrial } from "../../../api/jobs/erase.ts";
import { newKey, store } from "../../support/client.ts";
import { type InProcess, settings, startInProcess } from "../../support/in-process.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";

let target: InProcess;
let key: string;
let place: string;
let trial: string;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target);
  trial = (await store(target, key, sampleTrial(1))).id;
  place = `/trials/${trial}`;
});
afterAll(() => target.stop());

const send = (question: string, headers: Record<string, string> = {}) => {
  const body = new FormData();
  body.set("question", question);
  return target.request(`${place}/questions`, { method: "POST", body, headers });
};
const page = async () => (await target.request(place)).text();
const asked = async () => {
  const answer = await target.request(`/v1/trials/${trial}/questions`);
  return ((await answer.json()) as { questions: { id: string; question: string | null }[] }).questions;
};

test("what is no question comes back as it was written, with what is wrong; another site's form asks nothing", async () => {
  expect(await page()).toContain("Nobody has asked anything about this test.");
  const cases: [string, string][] = [
    [" \r\n ", "Write what you want to know."],
    [`${"y".repeat(2001)}`, "at most 2000 characters"],
    ["a bell \u0007 rings", "no control characters"],
  ];
  for (const [written, words] of cases) {
    const answer = await send(written);
    expect(answer.status).toBe(422);
    const html = await answer.text();
    expect(html).toContain(words);
    expect(html).toContain(written.trim());
    expect(html).toContain('aria-invalid="true"');
  }
  const hostile = await (await send(`</textarea><script>alert(1)</script>${"x".repeat(2000)}`)).text();
  expect(hostile).not.toContain("<script>alert");
  const elsewhere = await send("From afar?", { "Sec-Fetch-Site": "cross-site" });
  expect(elsewhere.status).toBe(403);
  expect(await elsewhere.text()).not.toContain("From afar?");
  expect((await target.request("/trials/trl-none/questions", { method: "POST", body: new FormData() })).status).toBe(
    404,
  );
  expect(await asked()).toEqual([]);
  const turned = await target.request(`${place}/questions`);
  expect([turned.status, turned.headers.get("Location")]).toEqual([302, `${place}#questions`]);
  expect((await target.request("/trials/%0d%0a/questions")).status).toBe(404);
});

test("asked once, read by all, answered by its tester; pressed twice it is one question", async () => {
  const done = await send("Was the window shut?\r\nI ask since natural decay is fast.");
  expect(done.status).toBe(303);
  const [question] = await asked();
  expect(done.headers.get("Location")).toBe(`${place}#${question!.id}`);
  expect(question!.question).toBe("Was the window shut?\nI ask since natural decay is fast.");
  const twice = await send("Was the window shut?\r\nI ask since natural decay is fast.");
  expect(twice.headers.get("Location")).toBe(done.headers.get("Location"));
  expect(await asked()).toHaveLength(1);

  const open = await page();
  expect(open).toContain("No answer yet.");
  expect(open).toContain("A question was put</a> to this test, not answered yet. It counts as before.");
  await target.request(`/v1/questions/${question!.id}/answers`, json({ answer: "It was." }, bearer(key)));
  const answered = await page();
  expect(answered).toContain("Answered by its tester");
  expect(answered).toContain("It was.");
  expect(answered).not.toContain("No answer yet.");
  expect((await send("Was the window shut?\r\nI ask since natural decay is fast.")).status).toBe(303);
  expect(await asked()).toHaveLength(2); // asked again after an answer, it is asked again
});

test("more than can be read is refused in the page, with the words kept", async () => {
  for (let n = 0; n < 30 && (await asked()).length < 21; n++) await send(`question ${n}?`);
  const answer = await send("One more, please?");
  expect([answer.status, answer.headers.get("Retry-After")]).toEqual([429, "3600"]);
  const html = await answer.text();
  expect(html).toContain("One more, please?</textarea>");
  expect(html).toContain("wait for an answer");
});

test("erased words say so; a person's reason is shown as it was written, whatever it looks like", async () => {
  await eraseFromTrial(target.deps.db, trial, "questions", "asked to", "2026-11-25T00:00:00.000Z");
  const html = await page();
  expect(html).toContain("The words were erased.");
  expect(html).not.toContain("window shut");
  for (const [action, reason] of [
    ["hold", "qst-like words are a reason"],
    ["list", "equal-readings: seen, and they differ"],
  ]) {
    await target.request("/v1/moderation", json({ subject: trial, action, reason }, bearer(settings.operatorKey)));
    expect(await page()).toContain(reason);
    expect(await (await target.request("/log")).text()).toContain(reason);
  }
  const listed = await page();
  expect(listed).not.toContain("put</a> to this test"); // laid to rest
});
