import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { SizingOut } from "../../../api/wire/sizing.ts";
import { newKey, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { all, type Element, one, parseHtml, strange, words } from "./html-tree.ts";

const HOSTILE = `<img src=x onerror=alert(1)> \u202Eeb`;
const ROOM = "in=m&length=5&width=4&height=3";

let target: InProcess;
beforeAll(async () => {
  target = await startInProcess();
  const configuration = { ...SAMPLE_CONFIGURATION, title: HOSTILE, arrangement: "two panels", costs: [] };
  await store(target, await newKey(target), sampleTrial(3, { configuration }));
});
afterAll(() => target.stop());

async function ask(query: string, status = 200): Promise<Element> {
  const answer = await target.request(`/room?${query}`);
  expect(answer.status).toBe(status);
  return parseHtml(await answer.text());
}

const field = (page: Element, name: string) => one(page, ({ attributes }) => attributes.id === `f-${name}`);

describe("the form of my room", () => {
  test.each([
    ["length=abc&width=4&height=3", ["length"]],
    ["length=5&target=air_changes", ["width", "height"]],
    ["target=air_changes", ["length"]],
    ["volume=50&length=5", ["volume"]],
    ["area=20&width=4", ["area", "height"]],
    ["volume=50&in=yards", ["in"]],
    [`${ROOM}&target=clearance&reduction=120&minutes=0`, ["reduction", "minutes"]],
    [`${ROOM}&target=ratio&ratio=100`, ["ratio"]],
    [`${ROOM}&budget=100&currency=euros`, ["currency"]],
    [`${ROOM}&max_units=2.5&probability=20`, ["max_units", "probability"]],
    [`${ROOM}&band=huge&kind=both`, ["band", "kind"]],
    [`${ROOM}&noise_max=loud&hours=25&distance=0`, ["noise_max", "distance", "hours"]],
  ])("%s: said beside the field, which holds what was typed", async (query, names) => {
    const page = await ask(query, 422);
    const wrong = all(page, ({ attributes }) => attributes.id?.endsWith("-error") ?? false);
    expect(wrong.map(({ attributes }) => attributes.id!.slice(2, -6)).sort()).toEqual([...names].sort());
    for (const name of names) {
      const control = field(page, name);
      expect(control.attributes["aria-invalid"]).toBe("true");
      expect(control.attributes["aria-describedby"]).toContain(`f-${name}-error`);
      const typed = new URLSearchParams(query).get(name);
      if (control.tag === "input" && typed) expect(control.attributes.value).toBe(typed);
    }
    expect(
      all(
        one(page, ({ attributes }) => attributes.role === "alert"),
        "a",
      ).map(({ attributes }) => attributes.href),
    ).toEqual(expect.arrayContaining(names.map((name) => `#f-${name}`)));
  });

  test("figures of a target that was not chosen are kept and not read", async () => {
    const page = await ask(`${ROOM}&target=air_changes&air_changes=4&ratio=nonsense`);
    expect(field(page, "ratio").attributes.value).toBe("nonsense");
    const link = all(page, "a").find(({ attributes }) => attributes.href?.startsWith("/v1/sizing?"))!;
    const answer = await target.request(link.attributes.href!);
    expect(SizingOut.parse(await answer.json()).target.kind).toBe("air_changes");
  });

  test("hostile words are words", async () => {
    const page = await ask(`${ROOM}&target=air_changes`);
    expect(strange(page)).toEqual([]);
    expect(all(page, "bdi").map(words)).toContain(HOSTILE);
    const echoed = await ask(`length=${encodeURIComponent(`"><script>alert(1)</script>${"W".repeat(5000)}`)}`, 422);
    expect(strange(echoed)).toEqual([]);
    expect(field(echoed, "length").attributes.value!.length).toBe(200);
  });
});
