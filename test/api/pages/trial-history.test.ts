import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { eraseFromTrial } from "../../../api/jobs/erase.ts";
import { plusMinus } from "../../../api/pages/figures.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { hostileTrial } from "../../support/hostile-text.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { PUBLIC_URL } from "../../support/public-url.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";
import { all, type Element, hasClass, one, parseHtml, strange, words } from "./html-tree.ts";

let target: InProcess;
let key: string;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target, "Slack water");
});
afterAll(() => target.stop());

async function pageOf(id: string): Promise<Element> {
  const answer = await target.request(`/trials/${id}`);
  expect(answer.status).toBe(200);
  return parseHtml(await answer.text());
}

const part = (page: Element, name: string) => one(page, hasClass(name));

describe("what happened to a record is shown", () => {
  test("a withdrawn trial stays as a tombstone, with its reason", async () => {
    const stored = await store(target, key, sampleTrial(5));
    const url = `/v1/trials/${stored.id}/withdrawal`;
    await target.request(url, json({ reason: "the <b>window</b> stood open" }, bearer(key)));
    const page = await pageOf(stored.id);
    expect(words(one(page, ({ attributes }) => attributes.role === "note"))).toContain("the <b>window</b> stood open");
    expect(hasClass("struck")(one(page, "h1"))).toBe(true);
    expect(all(part(page, "trial-bands"), hasClass("struck")).length).toBeGreaterThan(0);
    expect(words(part(page, "history"))).toMatch(/withdrawn by its tester: the <b>window<\/b> stood open/);
  });

  test("a corrected room is told with its reason; the result keeps its volume", async () => {
    const room = { label: "Oar shed", volume: { value: 30, unit: "m3", u: 0.6 } };
    const stored = await store(target, key, sampleTrial(6, { room }));
    const { id } = stored.room as { id: string };
    const body = { volume: { value: 36, unit: "m3", u: 0.9 }, reason: "the bay was forgotten" };
    await target.request(`/v1/rooms/${id}/revisions`, json(body, bearer(key)));
    const said = words(part(await pageOf(stored.id), "conditions"));
    expect(said).toContain("30.0 ± 1.2 m³");
    expect(said).toMatch(/Corrected on \S+ to 36\.0 ± 1\.8 m³.*the bay was forgotten.*keeps the one it was made with/);
  });

  test("erased words and readings show as erased, and the figures stay", async () => {
    const stored = await store(target, key, sampleTrial(7, { specimen: "the one with the crack" }));
    const erase = (what: "words" | "series") =>
      eraseFromTrial(target.deps.db, stored.id, what, "asked to", "2026-11-01T00:00:00.000Z");
    await erase("words");
    await erase("series");
    const page = await pageOf(stored.id);
    expect(words(part(page, "conditions"))).toMatch(/Specimen ?erased.*Room ?erased.*stood \(erased\).*Note ?erased/);
    expect(words(page)).not.toContain("the one with the crack");
    expect(words(one(page, ({ attributes }) => attributes.id === "decays"))).toContain("erased on 2026-11-01");
    const { cadr } = stored.analysis.results[0]!;
    expect(words(all(page, hasClass("figure"))[0]!)).toBe(`${plusMinus(cadr)} m³/h`);
  });

  test.each([0, 1, 2, 3, 4, 5, 6, 7])("hostile words in every field are words (%i)", async (shift) => {
    const answer = await target.request("/v1/trials", {
      method: "POST",
      body: hostileTrial(shift),
      headers: bearer(key),
    });
    expect(answer.status).toBe(201);
    const { id } = (await answer.json()) as StoredTrial;
    const page = await pageOf(id);
    expect(strange(page)).toEqual([]);
    for (const { attributes } of all(page, () => true)) {
      expect(Object.keys(attributes).filter((name) => name === "style" || name.startsWith("on"))).toEqual([]);
      expect((attributes.href ?? "/").replace(`${PUBLIC_URL}/oembed?`, "/")).toMatch(/^(\/(?!\/)|#)/);
    }
  });
});
