import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { FINDING_CODES } from "../../../analysis/analysis.ts";
import { REFUSAL_CODES } from "../../../analysis/analysis-error.ts";
import { READING_CODES } from "../../../analysis/reading/reading-error.ts";
import { DOUBTS } from "../../../api/doubt/rules.ts";
import { FINDING_MEANINGS } from "../../../api/pages/texts/method/finding-meanings.ts";
import { SafetyShort } from "../../../api/pages/texts/safety-short.tsx";
import { ERRORS } from "../../../api/problem.ts";
import { insertSpread } from "../../../db/spreads.ts";
import { FINDING_CASES } from "../../analysis/findings/finding-cases.ts";
import cdc from "../../fixtures/cdc-table-b1.fixture.json" with { type: "json" };
import { type Problem, problemOf } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { json } from "../../support/sample-trial.ts";
import { all, type Element, one, parseHtml, words } from "./html-tree.ts";

let target: InProcess;
beforeAll(async () => {
  target = await startInProcess();
});
afterAll(() => target.stop());

async function page(path: string): Promise<Element> {
  const answer = await target.request(path);
  expect(answer.status).toBe(200);
  expect(answer.headers.get("Content-Type")).toBe("text/html; charset=utf-8");
  return parseHtml(await answer.text());
}

const idsOf = (of: Element) => all(of, ({ attributes }) => "id" in attributes).map(({ attributes }) => attributes.id!);
const byId = (of: Element, id: string) => one(of, ({ attributes }) => attributes.id === id);
const rowsOf = (table: Element) =>
  all(table, "tr").map((row) => all(row, ({ tag }) => tag === "td" || tag === "th").map(words));
const tableOf = (of: Element, caption: RegExp) =>
  one(of, (each) => each.tag === "table" && caption.test(words(one(each, "caption"))));

describe.each(["/method", "/safety", "/problems", "/programs"])("%s", (path) => {
  test("every heading has an anchor of its own, and every link within the page leads to one", async () => {
    const root = await page(path);
    const ids = idsOf(root);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    const headings = all(one(root, "main"), ({ tag }) => tag === "h2" || tag === "h3");
    expect(headings.length).toBeGreaterThan(2);
    for (const heading of headings) expect(one(heading, "a").attributes.href).toBe(`#${heading.attributes.id}`);
    const within = all(root, "a").flatMap(({ attributes: { href = "" } }) =>
      href.startsWith("#") ? [href.slice(1)] : [],
    );
    expect(within.filter((id) => !ids.includes(id))).toEqual([]);
  });

  test("its contents name every part in their order", async () => {
    const root = await page(path);
    const contents = one(root, ({ attributes }) => attributes["aria-label"] === "On this page");
    const parts = all(one(root, "main"), "h2").map((heading) => [`#${heading.attributes.id}`, words(heading)]);
    const named = all(contents, "a").map((link) => [link.attributes.href, words(link)]);
    expect(named.slice(0, parts.length)).toEqual(parts);
  });
});

test("links from page to page lead to what is there", async () => {
  const pages = new Map<string, Element>();
  for (const path of ["/method", "/safety", "/problems", "/programs"]) pages.set(path, await page(path));
  const led = [...pages.values()].flatMap((root) =>
    all(one(root, "main"), "a").map(({ attributes }) => attributes.href!),
  );
  const elsewhere = led.filter((href) => href.startsWith("/"));
  expect(elsewhere.length).toBeGreaterThan(8);
  for (const href of elsewhere) {
    const [path, id] = href.split("#") as [string, string | undefined];
    const answer = await target.request(path);
    expect([href, answer.status]).toEqual([href, 200]);
    if (id) expect(idsOf(pages.get(path)!)).toContain(id);
  }
});

describe("the worked example is the one that was worked out by others", () => {
  // A synthetic chain, computed independently of this project: log-linear fits of eleven readings each.
  const PINNED = {
    "example-k-on": 6.314148253,
    "example-uk-on": 0.048568785,
    "example-k-off": 0.301614301,
    "example-uk-off": 0.005691437,
    "example-cadr": 180.376019,
    "example-u-volume": 1.80376,
    "example-u-on": 1.457064,
    "example-u-off": 0.170743,
    "example-u": 2.325024,
    "example-dof": 58.339,
    "example-factor": 2.001717,
    "example-expanded": 4.654042,
  };

  test.each(Object.entries(PINNED))("%s", async (id, value) => {
    const shown = words(byId(await page("/method"), id));
    const decimals = shown.split(".")[1]!.length;
    expect(shown).toBe(value.toFixed(decimals));
  });

  test("it can be followed from the readings on the page", async () => {
    const root = await page("/method");
    const rows = rowsOf(tableOf(root, /^Readings/))
      .slice(1)
      .map((row) => row.map((cell) => Number(cell.replace("−", "-"))));
    expect(rows).toHaveLength(11);
    const sum = (of: (row: number[]) => number) => rows.reduce((total, row) => total + of(row), 0);
    for (const [column, k] of [
      [3, PINNED["example-k-on"]],
      [5, PINNED["example-k-off"]],
    ] as const) {
      for (const row of rows) expect(row[column]).toBeCloseTo(Math.log(row[column - 1]!), 5);
      const slope = sum((row) => row[1]! * row[column]!) / sum((row) => row[1]! ** 2);
      expect(-60 * slope).toBeCloseTo(k, 4);
    }
  });

  test("it is quoted as results are, in the reader's unit", async () => {
    const quoted = async (path: string) =>
      all(await page(path), ({ attributes }) => attributes.class === "q").map(words);
    expect(await quoted("/method")).toContain("180.4 ± 4.7 m³/h");
    expect(await quoted("/method?unit=cfm")).toContain("106.2 ± 2.7 cfm");
  });
});

describe("tables", () => {
  test("noise and time, NIOSH 1998", async () => {
    const [, ...rows] = rowsOf(tableOf(await page("/safety"), /NIOSH/));
    expect(Object.fromEntries(rows.map(([level, time]) => [level, time]))).toEqual({
      85: "8\u00a0h",
      88: "4\u00a0h",
      91: "2\u00a0h",
      94: "1\u00a0h",
      97: "30\u00a0min",
      100: "15\u00a0min",
    });
  });

  test("clearance, CDC table B.1", async () => {
    const [, ...rows] = rowsOf(tableOf(await page("/method"), /Minutes until/));
    const numbers = rows.map((row) => row.map(Number));
    expect(numbers).toHaveLength(9);
    for (const [perHour, minutes99, minutes999] of numbers) {
      expect(minutes99).toBe(Math.round((-60 * Math.log(0.01)) / perHour!));
      expect(minutes999).toBe(Math.round((-60 * Math.log(0.001)) / perHour!));
    }
    expect(numbers).toEqual(cdc.cases[0]!.rows.map((row) => row.flat()));
  });

  test("assumed natural loss: as the table of common practice has it, plus ventilation", async () => {
    const [, ...rows] = rowsOf(tableOf(await page("/method"), /Natural loss/));
    const middle = (cell: string) => Number(cell.split(" ")[0]);
    expect(rows.map(([size, ...cells]) => [size, ...cells.map(middle)])).toEqual([
      ["0.1–1.0 µm", 0.5, 0.8, 1.5, 2],
      ["0.5–3.0 µm", 1, 1.3, 2, 2.5],
      ["5–11 µm", 2.5, 2.8, 3.5, 4],
      ["mass to 2.5 µm", 0.6, 0.9, 1.6, 2.1],
    ]);
    for (const cell of rows.flatMap((row) => row.slice(1))) expect(cell).toMatch(/^[\d.]+ ± [\d.]+$/);
  });

  test("the correction of a noise reading", async () => {
    const text = words(await page("/method"));
    // ISO 3744: 1.256, 0.458, 0.140 dB (computed).
    for (const pair of ["1.26 dB at 6 dB", "0.46 dB at 10 dB", "0.14 dB at 15 dB"]) expect(text).toContain(pair);
  });
});

describe("codes", () => {
  test("each finding, refusal and doubt has its place on the page of the method", async () => {
    const ids = idsOf(await page("/method"));
    const wanted = [
      ...FINDING_CODES.map((code) => `finding-${code}`),
      ...Object.keys(REFUSAL_CODES).map((code) => `refusal-${code}`),
      ...Object.keys(DOUBTS).map((code) => `doubt-${code}`),
    ];
    expect(wanted.filter((id) => !ids.includes(id))).toEqual([]);
  });

  test("a finding is said to add to the uncertainty where it does", () => {
    const said = FINDING_CODES.filter((code) => FINDING_MEANINGS[code].adds !== null);
    expect(said).toEqual(FINDING_CODES.filter((code) => FINDING_CASES[code].widens));
  });

  test("each problem and each unreadable log has its place, with its status and what to do", async () => {
    const root = await page("/problems");
    for (const [code, { status }] of Object.entries(ERRORS)) expect(words(byId(root, code))).toBe(`${code} ${status}`);
    const ids = idsOf(root);
    expect(Object.keys(READING_CODES).filter((code) => !ids.includes(`reading-${code}`))).toEqual([]);
    const told = all(root, "dd").map(words);
    expect(told).toHaveLength(Object.keys(ERRORS).length + Object.keys(READING_CODES).length);
    expect(new Set(told).size).toBe(told.length);
  });

  test("the type of a problem document is an address, and its anchor is there", async () => {
    const refused: [Promise<Response>, number][] = [
      [target.request("/v1/nothing"), 404],
      [target.request("/v1/trials/trl-none"), 404],
      [target.request("/v1/analyses", { method: "POST", body: "x" }), 415],
      [target.request("/v1/analyses", json({})), 422],
      [target.request("/v1/trials", json({})), 401],
      [target.request("/v1/keys"), 405],
      [target.request("/v1/leaderboard?noise_max=loud"), 422],
    ];
    const types = new Set<string>();
    for (const [answer, status] of refused) {
      const { type, code }: Problem = await problemOf(await answer, status);
      const { pathname, hash } = new URL(type);
      expect(hash).toBe(`#${code}`);
      expect(words(byId(await page(pathname), code))).toContain(code);
      types.add(type);
    }
    expect(types.size).toBeGreaterThan(4);
  });
});

test("short cautions lead to parts of the page on safety", async () => {
  const ids = idsOf(await page("/safety"));
  for (const about of ["smoke", "fan", "noise"] as const) {
    const short = parseHtml(String(await SafetyShort({ about })));
    const { href } = one(short, "a").attributes;
    expect(ids).toContain(href!.split("#")[1]);
    expect(words(short).length).toBeGreaterThan(100);
  }
});

test("today's spread between laboratories is the one that is stored", async () => {
  const today = async () => words(byId(await page("/method"), "spread-today"));
  expect(await today()).toBe(
    "Today: s = 13\u00a0% with 8 degrees of freedom, so that s itself is known to about 25\u00a0% of itself; assumed, for too few cleaners were tested by several people yet.",
  );
  const { db } = target.deps;
  const learnt = {
    id: 2,
    at: "2026-11-05T10:00:00.000Z",
    relative: 0.0917,
    dof: 14.2,
    source: "learnt",
    entries: 5,
  } as const;
  await db.write((connection) => insertSpread(connection, learnt));
  expect(await today()).toContain("s = 9.2\u00a0% with 14 degrees of freedom");
  expect(await today()).toContain("learnt from 5 entries on 2026-11-05 10:00 UTC");
});
