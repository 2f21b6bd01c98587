import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { plusMinus } from "../../../api/pages/figures.ts";
import { axeViolations } from "../../support/axe-violations.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

const executablePath = (process.env.PATH ?? "")
  .split(delimiter)
  .map((folder) => join(folder, "chromium"))
  .find(existsSync);

const HOSTILE = `<img src=x onerror="alert(1)"></title><script>alert(2)</script>\u202Eeb =HYPERLINK("http://x")`;

describe.skipIf(!executablePath)("pages in a real browser (Debian's chromium)", () => {
  let target: Target & { url: string };
  let browser: Browser;
  let page: Page;
  let trial: StoredTrial;
  const complaints: string[] = [];
  beforeAll(async () => {
    target = (await targets()
      .find(({ name }) => name === "node server")!
      .start()) as Target & { url: string };
    const key = await newKey(target, "Slack water");
    trial = await store(target, key, sampleTrial(1));
    await store(target, key, sampleTrial(2, { setting: "low", invented: true }));
    browser = await chromium.launch({ executablePath: executablePath!, args: ["--no-sandbox"] });
    page = await browser.newPage();
    page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
    page.on("pageerror", (error) => complaints.push(error.message));
    page.on("dialog", (dialog) => {
      complaints.push(`dialog: ${dialog.message()}`);
      return dialog.dismiss();
    });
    page.on("request", (request) => {
      if (!request.url().startsWith(target.url)) complaints.push(`asked elsewhere: ${request.url()}`);
    });
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    await target?.stop();
  });

  test.each([360, 768, 1280])("leaderboard → entry → trial, %i px wide", async (width) => {
    await page.setViewportSize({ width, height: 900 });
    await page.goto(target.url);
    expect(await page.locator("tbody tr").count()).toBe(2);
    expect(await page.getByRole("note").textContent()).toContain("Invented");
    await page.getByRole("link", { name: SAMPLE_CONFIGURATION.title }).first().click();
    await page.getByRole("link", { name: /^trl-/ }).first().click();
    expect(await page.locator("h1").textContent()).toContain(SAMPLE_CONFIGURATION.title);
    const overflow = await page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
    expect(overflow).toBeLessThanOrEqual(0);
    expect(complaints).toEqual([]);
  });

  test("a trial draws its readings, both fits and the windows", async () => {
    await page.goto(`${target.url}/trials/${trial.id}`);
    const charts = page.locator('svg[role="img"]');
    expect(await charts.count()).toBe(3);
    const total = charts.nth(2);
    expect(await total.locator("circle").count()).toBeGreaterThan(100);
    expect(await total.locator("path.fit-total").getAttribute("d")).toMatch(/^M[\d.]+,[\d.]+L/);
    expect(await charts.nth(1).locator("path.fit-natural").count()).toBe(1);
    const cadr = trial.analysis.results[0]!.cadr;
    expect(await page.locator(".figure").first().textContent()).toBe(`${plusMinus(cadr)} m³/h`);
    expect(complaints).toEqual([]);
  });

  test.each(["light", "dark"] as const)(
    "no page has an accessibility fault that axe finds, %s",
    async (colorScheme) => {
      await page.emulateMedia({ colorScheme });
      const entry = await (await target.request("/v1/leaderboard")).json();
      const id = (entry as { entries: { id: string }[] }).entries[0]!.id;
      for (const path of ["/", `/entries/${id}`, `/trials/${trial.id}`]) {
        await page.goto(target.url + path);
        expect(await axeViolations(page)).toEqual([]);
      }
    },
  );

  test("hostile text in every field is shown harmlessly", async () => {
    const hostile = await store(
      target,
      await newKey(target, HOSTILE.slice(0, 50)),
      sampleTrial(3, {
        configuration: {
          ...SAMPLE_CONFIGURATION,
          title: HOSTILE,
          arrangement: HOSTILE,
          settings: [{ label: HOSTILE.slice(0, 60) }],
        },
        setting: HOSTILE.slice(0, 60),
        room: { label: HOSTILE.slice(0, 80), volume: { value: 30, unit: "m3" } },
        specimen: HOSTILE,
        note: `${HOSTILE.repeat(30)}`,
      }),
    );
    for (const path of ["/?unpaired=include", `/trials/${hostile.id}`]) {
      const answer = await page.goto(target.url + path);
      expect(answer!.status()).toBe(200);
      expect(answer!.headers()["content-security-policy"]).toContain("default-src 'none'");
      expect(await page.locator("img, script").count()).toBe(0);
    }
    expect(complaints).toEqual([]);
  });
});
