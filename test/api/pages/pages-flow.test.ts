import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { toCsv } from "../../../analysis/simulate/to-csv.ts";
import { plusMinus } from "../../../api/pages/figures.ts";
import { type Opened, openBrowser } from "../../support/browser.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { SAMPLE_CONFIGURATION, sampleLog, sampleTrial } from "../../support/sample-trial.ts";

/** An open decay log by robwiss, 2022 (MIT), read where it is, recorded in a tent of 4.153 m³. */
const REAL = join(import.meta.dirname, "../../../../shared/real/boxfan_s1_run1_optical-b.csv");
const present = existsSync(REAL);

interface Log {
  readonly name: string;
  readonly bytes: Buffer;
  readonly volumeM3: number;
  readonly band: string;
  /** When the cleaner was on, in minutes: noted by somebody, and not where the analysis found it. */
  readonly cleanerOnMin: number;
}

const LOG: Log = present
  ? { name: "tent.csv", bytes: readFileSync(REAL), volumeM3: 4.153, band: "mass", cleanerOnMin: 9 }
  : {
      name: "log.csv",
      bytes: Buffer.from(toCsv(sampleLog(20).series).replace("n1", "0.3-1.0 um")),
      volumeM3: 30,
      band: "0.1-1.0",
      cleanerOnMin: 40,
    };

const WAYS = [360, 768, 1280].flatMap((width) =>
  [true, false].map((javaScriptEnabled) => ({ width, javaScriptEnabled })),
);

describe.skipIf(!chromiumPath)("from the list to a test of one's own (Debian's chromium)", () => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await openBrowser();
    const key = await newKey(opened.target, "Slack water");
    for (const setting of ["high", "low"]) await store(opened.target, key, sampleTrial(setting.length, { setting }));
  });
  afterAll(() => opened?.stop());
  afterEach(() => expect(opened.complaints()).toEqual([]));

  test.each(WAYS)("browse, filter, configuration, trial: $width px, scripts $javaScriptEnabled", async (way) => {
    const page = await open(opened, way);
    await page.goto(`${opened.target.url}/`);
    const title = page.getByRole("link", { name: new RegExp(SAMPLE_CONFIGURATION.title) });
    expect(await title.count()).toBe(2);
    const summary = page.locator(".filters > summary");
    if ((await summary.isVisible()) && !(await page.locator("#f-min_rooms").isVisible())) await summary.click();
    await page.selectOption("#f-kind", "user_built");
    await page.fill("#f-min_rooms", "2");
    await page.press("#f-min_rooms", "Enter");
    await page.waitForURL(/min_rooms=2/);
    expect(await title.count()).toBe(0);
    await page.fill("#f-min_rooms", "1");
    await page.getByRole("button", { name: "Show these" }).click();
    await page.waitForURL(/min_rooms=1/);
    await title.first().click();
    if (new URL(page.url()).pathname.startsWith("/entries/"))
      await page.locator("main a[href^='/configurations/']").first().click();
    await page.waitForURL(/\/configurations\/cfg-/);
    expect(await page.textContent("h1")).toContain(SAMPLE_CONFIGURATION.title);
    await page.locator("main a[href^='/trials/']:visible").first().click();
    await page.waitForURL(/\/trials\/trl-/);
    for (const drawn of ["path.fit-total", "path.fit-natural", "path.reading"]) {
      expect(await page.locator(`svg[role=img]:visible ${drawn}`).first().getAttribute("d")).toMatch(
        /^M[\d.]+[ ,][\d.]+/,
      );
    }
    const api = await opened.target.request(`/v1${new URL(page.url()).pathname}`);
    const { analysis } = (await api.json()) as StoredTrial;
    const figure = `${plusMinus(analysis.results[0]!.cadr)} m³/h`;
    expect(await page.locator(".figure").first().textContent()).toBe(figure);
    await isWhole(page);
    await page.context().close();
  });

  describe(present ? "a real log" : "a simulated log, since ../shared/real is absent", () => {
    let empty: Opened; // the same readings from another tester would wait for a person
    beforeEach(async () => {
      empty = await openBrowser();
    });
    afterEach(async () => {
      const complaints = empty.complaints();
      await empty.stop();
      expect(complaints).toEqual([]);
    });

    test.each(WAYS)(
      "looked at, a mark corrected, published and listed: $width px, scripts $javaScriptEnabled",
      async (way) => {
        const { name, bytes, volumeM3, band, cleanerOnMin } = LOG;
        const { target } = empty;
        const box = "Skerry box";
        const page = await open(empty, way);
        await page.goto(`${target.url}/`);
        if (way.width <= 768) await page.getByText("Menu", { exact: true }).click();
        await page.getByRole("navigation").getByRole("link", { name: "Add a test" }).click();
        await page.waitForURL(/\/submit$/);
        if (way.javaScriptEnabled) await page.waitForSelector("html[data-scripted]");
        await page.setInputFiles("#f-full_log-file", { name, mimeType: "text/csv", buffer: bytes });
        await page.fill("#f-room-volume", String(volumeM3));
        const look = page.getByRole("button", { name: "Show what it says" });
        if (await look.isVisible()) await look.click();
        const figure = page.locator("#preview .figure");
        await figure.first().waitFor();
        expect(await figure.first().textContent()).toMatch(/\d ± \d.*m³\/h/);
        const preview = page.locator("#preview");
        const before = await preview.textContent();

        await page.fill("#f-full_log-mark-cleaner_on", String(cleanerOnMin));
        await page.press("#f-full_log-mark-cleaner_on", "Enter");
        await expect.poll(() => preview.textContent(), { timeout: 10_000 }).not.toBe(before);

        await unfold(page, "Describe it", "#f-described-title");
        await page.check("input[name=configuration][value=described]");
        await page.fill("#f-described-title", box);
        await page.check("input[name='described.kind'][value=user_built]");
        await page.fill("#f-described-parts-0-description", "centrifugal fan, 20 cm");
        await page.check("input[name=interest][value=independent]");
        await page.fill("#f-performed_at", "2026-10-03T18:20");
        await page.selectOption("#f-performed_offset", "+02:00");
        await page.getByRole("button", { name: "Make a new key" }).click();
        await page.locator(".new-key", { hasText: "shown" }).waitFor();
        const key = await page.inputValue("#f-key");
        expect(key).toMatch(/^mote_/);
        await page.check("#f-consent");
        const looked = await figure.first().textContent();
        await publish(page, way.javaScriptEnabled);
        expect(await page.textContent("h1")).toContain(box);
        expect(await page.locator("main .figure").first().textContent()).toBe(looked);
        const api = await target.request(`/v1${new URL(page.url()).pathname}`);
        const [run] = ((await api.json()) as { runs: { marks: { event: string; t: number }[] }[] }).runs;
        expect(run!.marks.map(({ event }) => event)).toEqual(["cleaner_on"]);
        expect(run!.marks[0]!.t).toBeCloseTo(60 * cleanerOnMin, 0); // its first row is at 0.08 s
        await isWhole(page);
        await page.goto(`${target.url}/?band=${band}&unpaired=include`);
        expect(await page.getByRole("link", { name: new RegExp(box) }).count()).toBe(1);
        await page.context().close();
      },
    );
  });

  function open(where: Opened, { width, javaScriptEnabled }: (typeof WAYS)[number]): Promise<Page> {
    return where.open({ viewport: { width, height: 800 }, javaScriptEnabled, timezoneId: "Europe/Berlin" });
  }
});

/** With a script, what nobody has copied yet is not published at the first press; what is like a stored one is asked about. */
async function publish(page: Page, scripted: boolean): Promise<void> {
  if (scripted) await page.getByRole("button", { name: "Copy the key" }).click();
  const button = page.getByRole("button", { name: "Publish the test" });
  for (let press = 0; press < 2 && !page.url().includes("/trials/"); press++) {
    await button.click();
    await page.waitForURL(/\/trials\/trl-/, { timeout: 4000 }).catch(() => null);
  }
  await page.waitForURL(/\/trials\/trl-/, { timeout: 100 });
}

async function unfold(page: Page, words: string, field: string): Promise<void> {
  if (!(await page.locator(field).isVisible())) await page.getByText(words, { exact: true }).click();
}

async function isWhole(page: Page): Promise<void> {
  const over = "document.documentElement.scrollWidth - document.documentElement.clientWidth";
  expect(await page.evaluate(over)).toBeLessThanOrEqual(0);
}
