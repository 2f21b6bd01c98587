import type { Page, Response } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { COPY_PATH } from "../../../api/pages/quote/copy-script.ts";
import { fillDemo } from "../../../seed/fill-demo.ts";
import { ALL_PAGES, findKnown, type Known } from "../../support/all-pages.ts";
import { axeViolations, COLOUR_RULES } from "../../support/axe-violations.ts";
import { type Opened, openBrowser } from "../../support/browser.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { checkPage } from "../../support/page-checks.ts";

/** On a page may come, compressed, without the script of the preview and without the picture for posts. */
const MOST_BYTES = 100_000;
const MOST_PICTURE_BYTES = 100_000;
const MOST_SCRIPT_BYTES = 80_000;

describe.skipIf(!chromiumPath)("every page in a real browser (Debian's chromium)", () => {
  let opened: Opened;
  let known: Known;
  let page: Page;
  beforeAll(async () => {
    opened = await openBrowser();
    const { target } = opened;
    known = await findKnown(target.url, target.request, await fillDemo(target.request));
    page = await opened.open();
  });
  afterAll(() => opened?.stop());

  const sized = (width: number, colorScheme: "light" | "dark" = "light") =>
    Promise.all([page.setViewportSize({ width, height: 900 }), page.emulateMedia({ colorScheme })]);

  /** A form that comes back begins at what it says; elsewhere the first stop is the way past the navigation. */
  async function toFirstStop(): Promise<void> {
    await page.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"); // autofocus
    const isAtTop = "document.activeElement === document.body && location.hash === ''";
    if (await page.evaluate(isAtTop)) return page.keyboard.press("Tab");
    await page.locator(".skip").focus();
  }

  describe.each(ALL_PAGES)("$name", (which) => {
    test("axe finds nothing, light and dark; nothing is cut, crowded, tiny or too small to touch", async () => {
      await sized(1280);
      expect(await which.open(page, known)).toBe(which.status);
      await checkPage(page, "openDetails");
      const faults: string[] = [];
      const add = (where: string, found: readonly string[]) => faults.push(...found.map((each) => `${where}: ${each}`));
      for (const width of [1280, 360]) {
        await sized(width);
        add(`${width} px, axe`, await axeViolations(page));
        add(`${width} px`, await checkPage(page, "smallTargets"));
      }
      await sized(1280, "dark"); // the colours of words are the same at any width
      add("dark, axe", await axeViolations(page, COLOUR_RULES));
      for (const width of [320, 768, 1280]) {
        await sized(width);
        for (const check of ["sideways", "cutOff", "crowdedCharts", "tinyWords"] as const) {
          add(`${width} px`, await checkPage(page, check));
        }
      }
      add("any width", await checkPage(page, "unsafe"));
      await page.emulateMedia({ media: "print" });
      expect(await page.locator("nav").first().isVisible()).toBe(false);
      await page.emulateMedia({ media: null });
      expect(faults, faults.join("\n")).toEqual([]);
      expect(opened.complaints()).toEqual([]);
    });

    test("a keyboard reaches everything in order, sees where it is, skips to the content and unfolds", async () => {
      await sized(1280);
      await which.open(page, known);
      await toFirstStop();
      await page.keyboard.press("Enter");
      await page.waitForURL(/#content$/);
      await page.keyboard.press("Tab");
      expect(await page.evaluate("document.activeElement.closest('.top')")).toBe(null);
      for (const summary of await page.locator("main summary:visible").all()) {
        const details = summary.locator("xpath=..");
        const before = await details.getAttribute("open");
        await summary.focus();
        await page.keyboard.press("Enter");
        expect(await details.getAttribute("open")).not.toBe(before);
      }
      await which.open(page, known);
      const count = await checkPage(page, "watchFocus");
      await toFirstStop();
      // Keys go out together and are handled in order: to wait for each would take most of the time of these tests.
      await Promise.all(Array.from({ length: count + 11 }, () => page.keyboard.press("Tab")));
      const faults = await checkPage(page, "focusFaults");
      expect(faults, faults.join("\n")).toEqual([]);
    });

    test("it is light, answers with its policies, and its figures have units and intervals", async () => {
      const answers: Response[] = [];
      const note = (answer: Response) => answers.push(answer);
      page.on("response", note);
      await sized(1280);
      await which.open(page, known);
      page.off("response", note);
      const kind = (answer: Response) => answer.request().resourceType();
      const isPicture = (answer: Response) => kind(answer) === "image" && answer.url().endsWith("/card.png");
      const sizes = async (these: Response[]) => {
        const each = await Promise.all(these.map(async (answer) => (await answer.request().sizes()).responseBodySize));
        return each.reduce((sum, bytes) => sum + bytes, 0);
      };
      const scripts = answers.filter((answer) => kind(answer) === "script");
      const pictures = answers.filter(isPicture); // asked for when it is scrolled to
      const rest = answers.filter((answer) => !scripts.includes(answer) && !pictures.includes(answer));
      expect(await sizes(rest)).toBeLessThan(MOST_BYTES);
      expect(await sizes(pictures)).toBeLessThan(MOST_PICTURE_BYTES);
      expect(await sizes(scripts)).toBeLessThan(MOST_SCRIPT_BYTES);
      if (!page.url().startsWith(`${known.url}/submit`)) {
        const isQuoted = (await page.locator("button[data-copies]").count()) > 0;
        expect(scripts.map((answer) => answer.url())).toEqual(isQuoted ? [`${known.url}${COPY_PATH}`] : []);
      }
      const headers = answers.find((answer) => answer.request().isNavigationRequest())!.headers();
      expect(headers["content-security-policy"]).toMatch(/^default-src 'none'/);
      expect(headers["content-security-policy"]).toContain("; script-src 'self';");
      expect(headers["content-security-policy"]).not.toMatch(/unsafe|data:|\*/);
      expect(headers).toMatchObject({ "x-content-type-options": "nosniff", "referrer-policy": "no-referrer" });
      await checkPage(page, "openDetails");
      const faults = [...(await checkPage(page, "quantityFaults")), ...(await checkPage(page, "looseNumbers"))];
      const isToRead = ["the method", "safety"].includes(which.name); // formulas, worked examples, limits of others
      if (!isToRead) faults.push(...(await checkPage(page, "figuresInWords")));
      expect(faults, faults.join("\n")).toEqual([]);
    });
  });

  test.each(["/", "/configurations", "/compare", "/room", "/plan"])("Enter in a field of %s asks", async (path) => {
    await sized(1280);
    await page.goto(known.url + path);
    const field = page.locator("main form input:visible:not([type=checkbox], [type=radio])").first();
    await field.fill("3");
    await Promise.all([page.waitForURL(/\?.*=3/), field.press("Enter")]);
  });
});
