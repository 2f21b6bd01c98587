import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { chanceWords, powerWords, priceWords } from "../../../api/pages/compare/pair-words.ts";
import { plusMinus, range } from "../../../api/pages/figures.ts";
import { ComparisonOut } from "../../../api/wire/comparison.ts";
import { leaderboard, newKey, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { all, type Element, hasClass, one, parseHtml, words } from "./html-tree.ts";

const HOSTILE = `<img src=x onerror=alert(1)> \u202Eeb`;
const box = (grade: string, title = `Harbour box, MERV ${grade}`) => ({
  ...SAMPLE_CONFIGURATION,
  title,
  parts: [SAMPLE_CONFIGURATION.parts[0], { ...SAMPLE_CONFIGURATION.parts[1], filter_grade: { system: "MERV", grade } }],
});

let target: InProcess;
let ids: string[];
let coarse: string;
beforeAll(async () => {
  target = await startInProcess();
  const [first, second] = [await newKey(target), await newKey(target)];
  const room = { label: "Workshop", volume: { value: 30, unit: "m3", u: 3 }, ventilation: "off" };
  await store(target, first, sampleTrial(1, { configuration: box("11"), room }));
  await store(target, first, sampleTrial(2, { configuration: box("13"), room, interest: "paid" }));
  await store(target, second, sampleTrial(3, { configuration: box("13"), aerosol: { kind: "incense" } }));
  await store(target, await newKey(target), sampleTrial(4, { configuration: box("16", HOSTILE) }));
  const { entries } = await leaderboard(target);
  ids = ["MERV 11", "MERV 13", HOSTILE].map(
    (end) => entries.find(({ configuration }) => configuration.title.endsWith(end))!.id,
  );
  const runs = sampleTrial(5).runs.map(({ role, series }) => ({
    role,
    series: { ...series, channels: series.channels.map((channel) => ({ ...channel, from_um: 0.5, to_um: 3 })) },
  }));
  await store(target, first, sampleTrial(5, { configuration: box("11"), runs }));
  coarse = (await leaderboard(target, "?band=0.5-3.0")).entries[0]!.id;
});
afterAll(() => target.stop());

async function ask(query: string, status = 200): Promise<Element> {
  const answer = await target.request(`/compare?${query}`);
  expect(answer.status).toBe(status);
  return parseHtml(await answer.text());
}

async function asData(page: Element): Promise<ComparisonOut> {
  const link = all(page, "a").find(({ attributes }) => attributes.href?.startsWith("/v1/comparison?"))!;
  return ComparisonOut.parse(await (await target.request(link.attributes.href!)).json());
}

const shown = (of: { value: number; low: number; high: number }) =>
  Math.abs(of.high + of.low - 2 * of.value) > 0.05 * (of.high - of.low) ? range(of) : plusMinus(of);

describe("comparing", () => {
  test.each(["m3/h", "cfm"])("every figure is the API's, in %s", async (unit) => {
    const page = await ask(`entries=${ids.join(",")}&unit=${unit}`);
    const { entries, pairs } = await asData(page);
    const flow = unit === "cfm" ? "cfm" : "m³/h";
    const rows = all(one(page, hasClass("board")), "tr").slice(1);
    expect(rows).toHaveLength(3);
    for (const [i, { configuration, setting, cadr, cost, interest }] of entries.entries()) {
      const row = words(rows[i]!);
      expect(row).toContain(`${"ABC"[i]} ${configuration.title}, ${setting}`.replace(" ", ""));
      expect(row).toContain(`${shown(cadr!)} ${flow}`);
      expect(row).toContain(`${cost!.value} ${cost!.currency}`);
      for (const count of Object.values(interest)) expect(row).toContain(`${count} × `);
    }
    const sections = all(page, "section");
    expect(sections).toHaveLength(pairs.length);
    for (const [i, pair] of pairs.entries()) {
      const [a, b] = [pair.a, pair.b].map((id) => "ABC"[entries.findIndex((entry) => entry.id === id)]!);
      const said = words(sections[i]!);
      expect(said).toContain(`${a} less ${b}: ${shown(pair.difference!)} ${flow}.`);
      const holdsNothing = pair.difference!.low <= 0 && pair.difference!.high >= 0;
      expect(said.includes("these tests do not tell which of them cleans more air")).toBe(holdsNothing);
      for (const part of pair.parts) expect(said).toContain(part);
      const lists = all(sections[i]!, ({ tag }) => tag === "ul").map((list) => all(list, "li").map(words));
      expect(lists[0] ?? []).toEqual(pair.parts);
      expect(lists[1] ?? []).toHaveLength(pair.conditions.length);
    }
    expect(words(sections[0]!)).toContain("Both were tested in one room.");
    expect(words(sections[2]!)).toContain("Never tested in the same room");
    expect(words(page)).not.toMatch(/\b(winner|wins|best)\b/i);
  });

  test("ticked boxes, a list with commas and addresses ask the same", async () => {
    const one = await ask(`entries=${ids[0]},${ids[1]}`);
    const two = await ask(`entries=${ids[0]}&entries=${ids[1]}`);
    const three = await ask(`entries=http://here/entries/${ids[0]}%20${ids[1]!.toLowerCase()}`);
    expect((await asData(two)).pairs).toEqual((await asData(one)).pairs);
    expect((await asData(three)).pairs).toEqual((await asData(one)).pairs);
  });

  test("conditions are counted, side by side", async () => {
    const page = await ask(`entries=${ids[0]},${ids[1]}`);
    const table = all(page, "table").at(-1)!;
    const row = all(table, "tr").find((each) => words(all(each, "th")[0]!) === "Aerosol")!;
    expect(all(row, "td").map(words)).toEqual(["1 × salt", expect.stringMatching(/1 × incense/)]);
  });

  test("conditions are words, and not the codes they are held as", async () => {
    const text = words(one(await ask(`entries=${ids.join(",")}`), "main"));
    expect(text).toContain("optical particle counter");
    expect(text).toContain("15 to 80 m³");
    expect(text).not.toMatch(/optical counter|ordinary|_/);
  });

  test("nothing chosen explains how to choose, and lists what may be ticked", async () => {
    const page = await ask("");
    expect(all(page, hasClass("error"))).toEqual([]);
    const boxes = all(page, ({ attributes }) => attributes.type === "checkbox");
    expect(boxes.map(({ attributes }) => attributes.value).sort()).toEqual([...ids].sort());
    const coarser = await ask("band=0.5-3.0&do=find");
    expect(
      all(coarser, ({ attributes }) => attributes.name === "entries").map(({ attributes }) => attributes.value),
    ).toEqual([coarse]);
  });

  test("others are looked for by name, and those ticked stay ticked", async () => {
    const page = await ask(`entries=${ids[0]}&find=merv%2013&do=find`);
    const boxes = all(page, ({ attributes }) => attributes.name === "entries");
    expect(boxes.map(({ attributes }) => [attributes.value, "checked" in attributes])).toEqual([
      [ids[0], true],
      [ids[1], false],
    ]);
    expect(words(await ask("find=nothing%20at%20all&do=find"))).toContain("Nothing of that name is listed");
  });

  test.each([
    ["one alone", () => `entries=${ids[0]}`, "tick another"],
    ["none", () => "entries=", "tick two to six"],
    ["none ticked, as the form sends it", () => "band=0.1-1.0&basis=all&find=&do=compare", "tick two to six"],
    ["none ticked in the list", () => "do=compare", "tick two to six"],
    ["one twice", () => `entries=${ids[0]},${ids[0]}`, "tick another"],
    ["an id that nobody has", () => `entries=${ids[0]},ent-0000000000`, "ent-0000000000"],
    ["words", () => `entries=${ids[0]},<script>alert(1)</script>`, "is no entry id"],
    ["two particle sizes", () => `entries=${ids[0]},${coarse}`, "different particles"],
    ["seven", () => `entries=${"abcdefg".split("").join(",")}`, "More than six"],
  ])("%s: the form again, with the reason", async (_, query, reason) => {
    const page = await ask(query(), 422);
    expect(words(one(page, ({ attributes }) => attributes.role === "alert"))).toContain(reason);
    expect(all(page, "script")).toEqual([]);
    expect(all(page, ({ attributes }) => attributes.name === "entries").length).toBeGreaterThan(0);
  });

  test("a title that is HTML is words", async () => {
    const page = await ask(`entries=${ids[0]},${ids[2]}`);
    expect(all(page, "img")).toEqual([]);
    expect(all(page, "bdi").map(words)).toContain(HOSTILE);
  });
});

test("powers and prices in words", () => {
  const quantity = (low: number, high: number) => ({ value: (low + high) / 2, low, high, u: 1, dof: null, unit: "W" });
  expect(powerWords({ power_difference: quantity(21, 31) }, "A", "B")).toContain("A takes more");
  expect(powerWords({ power_difference: quantity(-31, -21) }, "A", "B")).toContain("B takes more");
  expect(powerWords({ power_difference: quantity(-1, 3) }, "A", "B")).toContain("cannot be told");
  expect(powerWords({ power_difference: null }, "A", "B")).toContain("not measured");
  const eur = (value: number) => ({ value, currency: "EUR", date: "2026-01-01" });
  expect(priceWords(eur(118), eur(132.5), "A", "B")).toBe(
    "118 EUR against 132.50 EUR: B is dearer by 14.50 EUR, as stated; a price has no interval.",
  );
  expect(priceWords(eur(118), eur(118), "A", "B")).toBe("118 EUR each, as stated.");
  expect(priceWords(eur(118), { ...eur(118), currency: "USD" }, "A", "B")).toContain("money is not converted");
  expect(priceWords(eur(118), null, "A", "B")).toContain("no price is stated of B");
  expect(priceWords(null, null, "A", "B")).toContain("no price is stated of either");
});

test("probabilities in words are told of the likelier one", () => {
  expect(chanceWords(0.934, "A", "B")).toBe("By these tests A is the stronger about 93 times in 100.");
  expect(chanceWords(0.2, "A", "B")).toBe("By these tests B is the stronger about 80 times in 100.");
  expect(chanceWords(0.9991, "A", "B")).toContain("more than 99 times in 100");
  expect(chanceWords(0.498, "A", "B")).toContain("As likely the one as the other");
  expect(chanceWords(null, "A", "B")).toBe("Cannot be told.");
});
