import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Opened, openBrowser } from "../../support/browser.ts";
import { newKey, store } from "../../support/client.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { checkPage } from "../../support/page-checks.ts";
import { SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";

const PHONE = { viewport: { width: 360, height: 740 }, hasTouch: true };

describe.skipIf(!chromiumPath)("the list on a phone (Debian's chromium)", () => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await openBrowser();
    const key = await newKey(opened.target);
    for (const seed of [1, 2, 3]) {
      const configuration = { ...SAMPLE_CONFIGURATION, title: `Box ${seed}`, arrangement: `${seed}` };
      await store(opened.target, key, sampleTrial(seed, { configuration, invented: true }));
    }
  }, 60_000);
  afterAll(() => opened?.stop());

  test.each([true, false])("the first result begins on the first screen (scripts: %s)", async (javaScriptEnabled) => {
    const page = await opened.open({ ...PHONE, javaScriptEnabled });
    await page.goto(`${opened.target.url}/`);
    const cleaner = (await page.locator(".board tbody .cleaner").first().boundingBox())!;
    expect(cleaner.y + cleaner.height).toBeLessThan(740);
    const header = (await page.locator("header.top").boundingBox())!;
    expect(header.height).toBeLessThan(64);
    await page.context().close();
  });

  test("the menu opens and leads on; at a desk it stands open", async () => {
    const page = await opened.open(PHONE);
    await page.goto(`${opened.target.url}/`);
    const way = page.getByRole("navigation", { name: "Pages" }).getByRole("link", { name: "Method" });
    expect(await way.isVisible()).toBe(false);
    await page.locator(".menu > summary").tap();
    expect(await checkPage(page, "sideways")).toEqual([]);
    await way.tap();
    await page.waitForURL("**/method");
    await page.setViewportSize({ width: 1280, height: 900 });
    expect(await way.isVisible()).toBe(true);
    expect(await page.locator(".menu > summary").isVisible()).toBe(false);
    await page.context().close();
  });

  test("comparing stays out of the way until something is ticked, and counts", async () => {
    const page = await opened.open(PHONE);
    await page.goto(`${opened.target.url}/`);
    const button = page.getByRole("button", { name: "Compare those ticked" });
    const onScreen = async () => (await button.boundingBox())!.y < 740;
    expect(await onScreen()).toBe(false);
    const ticks = page.locator(".board input[type=checkbox]");
    for (let i = 0; i < 2; i++) await ticks.nth(i).check();
    await page.evaluate("scrollTo(0, 600)");
    expect(await onScreen()).toBe(true);
    await button.tap();
    await page.waitForURL("**/compare?*");
    expect(new URL(page.url()).searchParams.getAll("entries")).toHaveLength(2);
    await page.context().close();
    expect(opened.complaints()).toEqual([]);
  });

  test("a link into what the method folds away opens it", async () => {
    const page = await opened.open(PHONE);
    await page.goto(`${opened.target.url}/method`);
    const finding = page.locator("#finding-coagulation");
    expect(await finding.isVisible()).toBe(false);
    await page.goto(`${opened.target.url}/method#finding-coagulation`);
    await expect.poll(() => finding.isVisible()).toBe(true);
    await page.context().close();
  });
});
