import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { leaderboard, newKey, store } from "../../support/client.ts";
import { type InProcess, settings, startInProcess } from "../../support/in-process.ts";
import { sampleTrial } from "../../support/sample-trial.ts";

describe("a test is withdrawn by a form, without scripts", () => {
  let target: InProcess;
  let key: string;
  let place: string;
  beforeAll(async () => {
    target = await startInProcess();
    key = await newKey(target);
    const { id } = await store(target, key, sampleTrial(1));
    place = `/trials/${id}/withdrawal`;
  });
  afterAll(() => target.stop());

  const send = (path: string, fields: Record<string, string>, headers: Record<string, string> = {}) => {
    const body = new FormData();
    for (const [name, value] of Object.entries(fields)) body.set(name, value);
    return target.request(path, { method: "POST", body, headers });
  };

  test("its page leads to the form, which needs the key and a reason, and shows no key again", async () => {
    const trial = await (await target.request(place.replace("/withdrawal", ""))).text();
    expect(trial).toContain(`href="${place}"`);
    const other = await newKey(target);
    const cases: [Record<string, string>, string][] = [
      [{ reason: "wrong room" }, "The key that the test was published with is needed."],
      [{ key: "mote_nonsense", reason: "wrong room" }, "mistyped"],
      [{ key: other, reason: "wrong room" }, "published with another key"],
      [{ key, reason: " " }, "Say why"],
      [{ key, reason: "x".repeat(1001) }, "Say why"],
    ];
    for (const [fields, words] of cases) {
      const answer = await send(place, fields);
      expect(answer.status).toBe(422);
      const html = await answer.text();
      expect(html).toContain(words);
      expect(html).not.toContain(fields.key ?? "mote_");
    }
    const hostile = await (await send(place, { reason: `"><script>alert(1)</script>` })).text();
    expect(hostile).not.toContain("<script");
    expect((await send(place, { key, reason: "r" }, { "Sec-Fetch-Site": "cross-site" })).status).toBe(422);
    expect((await target.request("/trials/trl-none/withdrawal")).status).toBe(404);
    expect((await leaderboard(target)).entries).toHaveLength(1);
  });

  test("withdrawn, it counts no more; the form says so and does nothing twice", async () => {
    const done = await send(place, {
      key: ` ${key.slice(0, 20)}\n ${key.slice(20)} `,
      reason: "The room\nwas another.",
    });
    expect(done.status).toBe(303);
    const html = await (await target.request(done.headers.get("Location")!)).text();
    expect(html).toContain("The room was another.");
    expect(html).toContain("Withdrawn on");
    expect(html).not.toContain(place);
    expect((await leaderboard(target)).entries).toHaveLength(0);
    expect(await (await target.request(place)).text()).not.toContain("<form");
    expect((await send(place, { key: settings.operatorKey, reason: "again" })).status).toBe(303);
  });
});
