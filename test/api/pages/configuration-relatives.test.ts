import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { EntryOut } from "../../../api/wire/entry.ts";
import { leaderboard, newKey, store } from "../../support/client.ts";
import { settings } from "../../support/in-process.ts";
import { sampleTrial } from "../../support/sample-trial.ts";
import { at, BOX, type DescribedBoxes, rowsOf, startDescribedBoxes, tableWith, written } from "./described-boxes.ts";
import { all, hasClass, one, strange, words } from "./html-tree.ts";

const HOSTILE = `<img src=x onerror="alert(1)"></title><script>alert(2)</script>\u202Eeb =1+1`;

describe("a configuration among others", () => {
  let boxes: DescribedBoxes;
  beforeAll(async () => {
    boxes = await startDescribedBoxes();
  });
  afterAll(() => boxes.target.stop());

  test("relatives: what differs in words, and what may be compared", async () => {
    const key = await newKey(boxes.target);
    const [fan, filter] = BOX.parts;
    const finer = {
      ...BOX,
      title: "Finer box",
      parts: [fan, { ...filter, filter_grade: { system: "MERV", grade: "14" } }],
      derived_from: boxes.configuration,
    };
    const stored = await store(boxes.target, key, sampleTrial(8, { configuration: finer }));
    const page = await boxes.get(`/configurations/${stored.configuration.id}`);
    const text = words(one(page, "main"));
    expect(text).toContain(`It derives from ${BOX.title}. What differs here: `);
    expect(text).toContain("MERV 14 instead of MERV 13");
    const own = all(page, "a").find((link) => /^\/entries\/[^#]+$/.test(link.attributes.href ?? ""))!;
    const compare = all(page, "a").find((link) => words(link) === "Compare with it")!;
    expect(compare.attributes.href).toBe(`/compare?entries=${own.attributes.href!.split("/")[2]},${boxes.entry.id}`);
    expect((await boxes.target.request(compare.attributes.href!)).status).toBe(200);
  });

  test("a merged one leads to the other, whatever was asked of it", async () => {
    const key = await newKey(boxes.target);
    const twin = { ...BOX, title: "Twin box", arrangement: "a twin" };
    const stored = await store(boxes.target, key, sampleTrial(9, { configuration: twin }));
    const { entries } = await leaderboard(boxes.target, "?unpaired=include");
    const old = entries.find((each) => each.configuration.id === stored.configuration.id)!;
    const from = `/configurations/${stored.configuration.id}`;
    await boxes.send(
      `/v1${from}/merge`,
      { into: boxes.configuration, reason: "the same box" },
      settings.operatorKey,
      200,
    );
    const answer = await boxes.target.request(`${from}?band=mass&setting=High`);
    expect([answer.status, answer.headers.get("Location")]).toEqual([
      308,
      `/configurations/${boxes.configuration}?band=mass&setting=High`,
    ]);
    const moved = await boxes.target.request(`/entries/${old.id}?unit=cfm`);
    expect([moved.status, moved.headers.get("Location")]).toEqual([308, `/entries/${boxes.entry.id}?unit=cfm`]);
    const text = words(one(await boxes.get(`/configurations/${boxes.configuration}`), "main"));
    expect(text).toContain(`${stored.configuration.id} was found to be the same thing on`);
    expect(text).toContain("the same box");
  });

  test("hostile words are words, on every page and in the search", async () => {
    const key = await newKey(boxes.target, HOSTILE.slice(0, 50));
    const part = { part: "fan", count: 1, description: HOSTILE, size: HOSTILE };
    const hostile = {
      ...BOX,
      title: HOSTILE,
      arrangement: HOSTILE,
      maker: HOSTILE,
      model: HOSTILE,
      parts: [part, { part: "ioniser", count: 1, description: "W".repeat(200) }],
      settings: [{ label: HOSTILE.slice(0, 60) }],
    };
    const stored = await store(
      boxes.target,
      key,
      sampleTrial(10, { configuration: hostile, setting: HOSTILE.slice(0, 60), room: at(HOSTILE.slice(0, 80)) }),
    );
    const { entries } = await leaderboard(boxes.target);
    const own = entries.find((each) => each.configuration.id === stored.configuration.id)!;
    const paths = [`/configurations/${stored.configuration.id}`, `/entries/${own.id}`];
    for (const path of [...paths, `/configurations?q=${encodeURIComponent(HOSTILE)}`]) {
      const page = await boxes.get(path);
      expect(strange(page)).toEqual([]);
      expect(words(page)).toContain(HOSTILE);
      expect(all(page, "bdi").map(words)).toContain(HOSTILE);
    }
    expect(await boxes.main(paths[0]!)).toContain("0.050 ppm");
    const svg = all(await boxes.get(paths[0]!), hasClass("narrow"))[0]!;
    expect(words(all(svg, "text").find((text) => words(text).includes("…"))!).length).toBeLessThan(60);
  });

  test("search: newest first, by words, nothing found said", async () => {
    const rows = rowsOf(tableWith(await boxes.get("/configurations"), "Cleaner"));
    const { configurations } = await boxes.data<{ configurations: { id: string }[] }>("/v1/configurations");
    expect(rows.map((row) => one(row, "a").attributes.href)).toEqual(
      configurations.map(({ id }) => `/configurations/${id}`),
    );
    const own = rows.find((row) => one(row, "a").attributes.href === `/configurations/${boxes.configuration}`)!;
    const now = await boxes.data<EntryOut>(`/v1/entries/${boxes.entry.id}`);
    expect(words(own)).toContain(`${written(now.bases.all!.cadr!)} m³/h`);
    expect(await boxes.main("/configurations?q=zebra")).toContain("No title holds these words.");
    const field = one(await boxes.get("/configurations?q=zebra%00%ff"), (each) => each.attributes.id === "f-q");
    expect(field.attributes.value).toMatch(/^zebra/);
  });
});
