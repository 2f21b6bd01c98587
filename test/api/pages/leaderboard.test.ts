import { gzipSync } from "node:zlib";
import { jsx } from "hono/jsx";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { plusMinus, range } from "../../../api/pages/figures.ts";
import { LeaderboardPage } from "../../../api/pages/leaderboard/leaderboard-page.tsx";
import { STYLESHEET } from "../../../api/pages/stylesheet.ts";
import type { RankedEntry } from "../../../api/wire/leaderboard.ts";
import { leaderboard, newKey, store } from "../../support/client.ts";
import { startInProcess } from "../../support/in-process.ts";
import { sampleTrial } from "../../support/sample-trial.ts";
import { all, type Element, hasClass, one, parseHtml, words } from "./html-tree.ts";
import {
  cellOf,
  HOSTILE,
  type ListedBoxes,
  linkOf,
  noiseWords,
  rowsOf,
  startListedBoxes,
  titlesOf,
} from "./listed-boxes.ts";

describe("the list of results as a page", () => {
  let target: ListedBoxes;
  let get: ListedBoxes["get"];
  beforeAll(async () => {
    target = await startListedBoxes();
    get = target.get;
  });
  afterAll(() => target.stop());

  test.each(["m3/h", "cfm"])("rows are the figures of the API, rounded as everywhere, in %s", async (unit) => {
    const page = await get(`/?unit=${unit}`);
    const { entries } = await leaderboard(target, `?unit=${unit}`);
    const unitWords = unit === "cfm" ? "cfm" : "m³/h";
    expect(rowsOf(page)).toHaveLength(entries.length);
    for (const [i, row] of rowsOf(page).entries()) {
      const entry = entries[i]!;
      const isEven =
        Math.abs(entry.cadr.high + entry.cadr.low - 2 * entry.cadr.value) < 0.05 * (entry.cadr.high - entry.cadr.low);
      expect(cellOf(row, "Clean air")).toBe(`${isEven ? plusMinus(entry.cadr) : range(entry.cadr)} ${unitWords}`);
      expect(cellOf(row, "Noise at 1 m")).toBe(noiseWords(entry));
      expect(cellOf(row, "Power")).toBe(entry.power ? `${plusMinus(entry.power)} W` : "not measured");
      expect(cellOf(row, "Price")).toBe(entry.cost ? `${entry.cost.value} ${entry.cost.currency}` : "not stated");
      const link = new URL(one(row, "a").attributes.href!, "http://here");
      expect(link.pathname).toBe(`/configurations/${entry.configuration.id}`);
      expect(Object.fromEntries(link.searchParams)).toEqual({ setting: entry.setting, band: "0.1-1.0" });
      expect(one(row, "input").attributes).toMatchObject({ name: "entries", value: entry.id, form: "compare" });
    }
  });

  test("a bound on noise, an unmeasured noise, who paid and how often it was tested are in words", async () => {
    const rows = new Map(rowsOf(await get("/?unpaired=include")).map((row) => [words(one(row, "a")), row]));
    const bounded = rows.get("Bounded box, High")!;
    expect(cellOf(bounded, "Noise at 1 m")).toMatch(/^under 4\d\.\d dB\(A\)$/);
    expect(cellOf(rows.get(`${HOSTILE}, High`)!, "Noise at 1 m")).toBe("not measured");
    const twin = rows.get("Twin one, High")!;
    expect(all(twin, hasClass("who")).flatMap((cell) => all(cell, "span").map(words))).toEqual([
      "1 × bought or built by the tester",
      "1 × the test was paid for",
    ]);
    expect(cellOf(twin, "Tests").replaceAll("\u00a0", " ")).toBe("2 tests in 2 rooms by 2 testers");
    expect(cellOf(rows.get("Unpaired box, High")!, "Tests")).toContain("all unpaired");
  });

  test("equals share a rank, and the ranks that intervals allow stand beside it", async () => {
    const { entries } = await leaderboard(target);
    const ranks = rowsOf(await get("/")).map((row) => cellOf(row, "Rank"));
    expect(ranks).toEqual(
      entries.map(({ rank, rank_low, rank_high, configuration }) => {
        const place = configuration.title.startsWith("Twin") ? "=3" : String(rank);
        return rank_low === rank_high ? place : `${place}, may be ${rank_low}–${rank_high}`;
      }),
    );
    expect(ranks.filter((rank) => rank.startsWith("=3"))).toHaveLength(2);
    expect(ranks.some((rank) => /may be \d+–\d+/.test(rank))).toBe(true);
  });

  test("the bars of all rows are drawn to one scale, whose marks are named once", async () => {
    const page = await get("/");
    const { entries } = await leaderboard(target);
    const per = (text: string | undefined) => Number(text!.replace("%", ""));
    const bars = all(page, (it) => it.attributes.class === "interval");
    const axis = all(all(page, "thead")[0]!, "text").map(
      (mark) => [Number(words(mark)), per(mark.attributes.x)] as const,
    );
    const [[zero, from], [last, to]] = [axis[0]!, axis.at(-1)!];
    expect([zero, axis.length > 3]).toEqual([0, true]);
    const at = (value: number) => from + ((to - from) * value) / last;
    for (const [i, { cadr }] of entries.entries()) {
      expect(per(bars[i]!.attributes.x1)).toBeCloseTo(at(cadr.low), 0);
      expect(per(bars[i]!.attributes.x2)).toBeCloseTo(at(cadr.high), 0);
    }
  });

  test("words of strangers stay words", async () => {
    const text = await (await target.request("/")).text();
    expect(text).not.toContain("<script");
    expect(text).toContain("<bdi>&lt;/bdi&gt;&lt;script&gt;");
    expect(titlesOf(parseHtml(text))).toContain(HOSTILE);
    const echoed = await get(`/?noise_max=${encodeURIComponent(HOSTILE)}&${encodeURIComponent(`nois_max`)}=1`, 422);
    expect(all(echoed, "script")).toEqual([]);
    expect(one(echoed, (it) => it.attributes.name === "noise_max").attributes.value).toBe(HOSTILE);
  });

  test("pages follow each other by link, and the first is in reach of all", async () => {
    const walked: string[] = [];
    let path: string | undefined = "/?limit=2&sort=cadr_low";
    while (path) {
      const page: Element = await get(path);
      walked.push(...titlesOf(page));
      const next = all(page, (it) => it.tag === "a" && words(it) === "Next page");
      if (walked.length > 2) expect(linkOf(page, "First page")).toBe("/?limit=2&sort=cadr_low");
      path = next[0]?.attributes.href;
    }
    expect(walked).toEqual(titlesOf(await get("/?sort=cadr_low")));
  });

  test("the chart's table holds every row with a noise, and who is on the frontier", async () => {
    const page = await get("/");
    const rated = (await leaderboard(target)).entries.filter(({ noise }) => noise);
    const figure = one(page, "figure");
    const drawn = all(one(figure, "tbody"), "tr").map((row) => all(row, "td").map(words));
    expect(drawn.map((cells) => [cells[0], cells[2], cells[3], cells[4]])).toEqual(
      rated.map((entry) => [
        String(entry.rank),
        cellOf(rowsOf(page).find((row) => one(row, "input").attributes.value === entry.id)!, "Clean air").replace(
          " m³/h",
          "",
        ),
        noiseWords(entry).replace(" dB(A)", ""),
        entry.frontier ? "yes" : "no",
      ]),
    );
    expect(
      all(figure, "svg")
        .map((svg) => words(one(svg, "title")))
        .every((title) => title.includes(`${rated.length} results`)),
    ).toBe(true);
    expect(all(figure, hasClass("whisker")).some((path) => path.attributes.d!.includes("h-26"))).toBe(true);
    expect(words(await get("/?noise_max=99&aerosol=oil_smoke"))).not.toContain("arrow");
  });

  test("without a noise of any row it says so; without any row it says that", async () => {
    const empty = await startInProcess();
    const page = async (path = "/") => parseHtml(await (await empty.request(path)).text());
    expect(words(await page())).toContain("Nothing is listed for particles of 0.1–1.0 µm yet.");
    expect(words(await page("/?cost_max=100"))).toContain("99.50 and EUR");
    await store(empty, await newKey(empty), sampleTrial(1, { invented: true }));
    expect(words(await page())).toContain("No noise at 1 m was measured of any of these");
    expect(words(await page())).toContain("Invented for demonstration");
    expect(words(await page("/?invented=exclude"))).toContain("0 results listed; 1 does not fit what was asked.");
    await store(empty, await newKey(empty), sampleTrial(2, { setting: "low" }));
    expect(words(await page())).toContain("What is marked invented is for demonstration");
    const marks = rowsOf(await page()).map((row) => words(one(row, "th")));
    expect(marks.filter((mark) => mark.endsWith("invented"))).toHaveLength(1);
    expect(rowsOf(await page("/?invented=exclude"))).toHaveLength(1);
    await empty.stop();
  });

  test("fifty rows with the longest titles weigh less than 100 KB with the styles", async () => {
    const board = await leaderboard(target);
    const [model] = board.entries;
    const entries = Array.from({ length: 50 }, (_, i): RankedEntry => {
      const value = 600 * Math.exp(-i / 17.3);
      const noise = 30 + ((i * 7919) % 251) / 10;
      return {
        ...model!,
        id: `ent-${String(i * 48_271).padStart(12, "0")}`,
        rank: i + 1,
        rank_high: i + 9,
        configuration: {
          id: `cfg-${i * 69_621}`,
          title: `Box ${i} `.padEnd(120, String.fromCharCode(97 + (i % 26))),
          kind: "user_built",
        },
        setting: `setting ${i}`,
        cadr: { ...model!.cadr, value, low: value * 0.8, high: value * 1.21 },
        noise: { value: noise, unit: "dB", weighting: "A", u: 1, dof: 9, low: noise - 2.3, high: noise + 2.3 },
        interest: { independent: i, lent_or_given: 1, paid: 2, maker_or_seller: 3 },
        invented: i % 2 === 0,
      };
    });
    const question = { query: null, texts: {}, complaints: {}, nearMisses: [] };
    const reader = { flow: "m3/h" as const, href: "/" };
    const html = String(jsx(LeaderboardPage, { board: { ...board, entries }, question, reader }));
    expect(rowsOf(parseHtml(html))).toHaveLength(50);
    expect(gzipSync(html).length + gzipSync(STYLESHEET).length).toBeLessThan(100 * 1024);
  });
});
