import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { type Opened, openBrowser } from "../../support/browser.ts";
import { newKey, store } from "../../support/client.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { sampleTrial } from "../../support/sample-trial.ts";

const STYLES = ["plain", "markdown", "bbcode", "html"];

describe.skipIf(!chromiumPath)("a quotation is copied (Debian's chromium)", () => {
  let opened: Opened;
  let path: string;
  beforeAll(async () => {
    opened = await openBrowser();
    path = `/trials/${(await store(opened.target, await newKey(opened.target), sampleTrial(1))).id}`;
  });
  afterAll(() => opened?.stop());
  afterEach(() => expect(opened.complaints()).toEqual([]));

  const button = (page: Page, style: string) => page.locator(`button[data-copies="quote-${style}"]`);
  const at = async (page: Page) => {
    await page.goto(opened.target.url + path);
    return page;
  };

  test("where the browser allows it, whole, and only the last one says so", async () => {
    const page = await at(await opened.open({ permissions: ["clipboard-read", "clipboard-write"] }));
    await page.getByText("For forums and web pages").click();
    for (const style of STYLES) {
      await button(page, style).click();
      await button(page, style).filter({ hasText: "Copied" }).waitFor();
      expect(await page.getByRole("button", { name: "Copied" }).count()).toBe(1);
      const text = await page.inputValue(`#quote-${style}`);
      expect(text).toContain("http");
      expect(await page.evaluate("navigator.clipboard.readText()")).toBe(text);
    }
    await page.context().close();
  });

  test.each([
    ["refuses", `navigator.clipboard.writeText = () => Promise.reject(new DOMException("no", "NotAllowedError"));`],
    ["has no clipboard", `Object.defineProperty(navigator, "clipboard", { value: undefined });`],
  ])("where the browser %s, the text is marked, and it is said", async (_, script) => {
    const page = await opened.open();
    await page.addInitScript(script);
    await at(page);
    await button(page, "plain").click();
    await button(page, "plain").filter({ hasText: "Marked: copy it by keyboard or touch" }).waitFor();
    expect(await page.evaluate("getSelection().toString()")).toBe(await page.inputValue("#quote-plain"));
    await page.context().close();
  });

  test("without scripts there is no button that does nothing, and the text is there", async () => {
    const page = await at(await opened.open({ javaScriptEnabled: false }));
    expect(await button(page, "plain").isVisible()).toBe(false);
    expect(await page.inputValue("#quote-plain")).toContain("m³/h");
    await page.context().close();
  });

  test.each([320, 1280])("at %d px every text stands whole in its box", async (width) => {
    const page = await at(await opened.open({ viewport: { width, height: 900 } }));
    await page.getByText("For forums and web pages").click();
    for (const style of STYLES) {
      const hidden = `(({ scrollHeight, clientHeight }) => scrollHeight - clientHeight)(document.getElementById("quote-${style}"))`;
      expect(await page.evaluate(hidden)).toBeLessThanOrEqual(1);
    }
    await page.context().close();
  });
});
