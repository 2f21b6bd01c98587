import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { METHOD_VERSION } from "../../../analysis/method-version.ts";
import { COPY_PATH, COPY_SCRIPT } from "../../../api/pages/quote/copy-script.ts";
import { leaderboard, newKey, type StoredTrial, store } from "../../support/client.ts";
import { sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

describe.each(targets())("pages $name", ({ start }) => {
  let target: Target;
  let trial: StoredTrial;
  beforeAll(async () => {
    target = await start();
    trial = await store(target, await newKey(target), sampleTrial(1));
  });
  afterAll(() => target?.stop());

  const read = async (path: string) => {
    const answer = await target.request(path);
    expect([path, answer.status]).toEqual([path, 200]);
    return { answer, text: await answer.text() };
  };

  test("every kind of page is served", async () => {
    const fixed = ["/", "/configurations", "/room?volume=30&target=air_changes&air_changes=5", "/compare", "/plan"];
    const texts = ["/method", "/safety", "/programs", "/problems", "/submit"];
    const entry = (await leaderboard(target)).entries[0]!.id;
    const pinned = `/pinned/${trial.id}/1/${METHOD_VERSION}/0.1-1.0`;
    const own = [
      `/trials/${trial.id}`,
      `/trials/${trial.id}/withdrawal`,
      `/trials/${trial.id}/amendment`,
      `/configurations/${trial.configuration.id}`,
    ];
    for (const path of [...fixed, ...texts, ...own, `/entries/${entry}`, pinned, "/log"]) {
      const { answer, text } = await read(path);
      expect(answer.headers.get("Content-Type")).toBe("text/html; charset=utf-8");
      expect(answer.headers.get("Content-Security-Policy")).toContain("script-src 'self';");
      expect(text).toMatch(/^<!doctype html><html lang="en">[\s\S]*<h1[\s\S]*<\/html>$/i);
    }
  });

  test("the script of the page where a test is added is served, for that page alone", async () => {
    const { text } = await read("/submit");
    const address = /src="(\/submit\.js\?v=[0-9a-f]{12})"/.exec(text)![1]!;
    const script = await read(address);
    expect(script.answer.headers.get("Content-Type")).toContain("javascript");
    expect(script.answer.headers.get("Cache-Control")).toContain("immutable");
    expect(script.text.length).toBeGreaterThan(50_000);
    expect((await read("/")).text).not.toContain("<script");
  });

  test("the script that copies a quotation is served", async () => {
    const { text } = await read(`/trials/${trial.id}`);
    expect(text).toContain(`src="${COPY_PATH}"`);
    const script = await read(COPY_PATH);
    expect(script.answer.headers.get("Content-Type")).toContain("javascript");
    expect(script.text).toBe(COPY_SCRIPT);
  });

  test("a page that is not there is a page too", async () => {
    const answer = await target.request("/trials/trl-7K3M9QX2RV0");
    expect([answer.status, answer.headers.get("Content-Type")]).toEqual([404, "text/html; charset=utf-8"]);
  });
});
