import type { BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { chromiumPath } from "../../support/find-chromium.ts";
import { CSV, openSubmit, type SubmitInBrowser } from "../../support/submit-in-browser.ts";

describe.skipIf(!chromiumPath)("what a browser keeps of the form, and what it does not (Debian's chromium)", () => {
  let submit: SubmitInBrowser;
  beforeAll(async () => {
    submit = await openSubmit();
  }, 60_000);
  afterAll(() => submit?.stop());

  async function opened(script = "", options: BrowserContextOptions = {}): Promise<Page> {
    const page = await submit.open(options);
    if (script) await page.addInitScript(script);
    return submit.ready(page);
  }

  test("drafts that are broken, or of another version, do not hinder the page", async () => {
    const drafts = [
      "{",
      "null",
      "[]",
      `{"fields":{}}`,
      `{"fields":[["note",1],["note"],7,["__proto__","x"]],"at":"2026-10-03T00:00:00Z"}`,
      `{"fields":[["note","kept"]],"at":5}`,
      `{"fields":[["note","kept"]],"at":"yesterday","attempt":{"key":"a","content":"b"}}`,
    ];
    for (const draft of drafts) {
      const page = await opened(`localStorage.setItem("motefall.draft", ${JSON.stringify(draft)});`);
      await submit.withLog(page);
      await page.context().close();
    }
    const older = `{"fields":[["note","kept"]],"at":"2026-10-03T00:00:00Z","attempt":{"key":"a","content":"b"}}`;
    const page = await opened(`localStorage.setItem("motefall.draft", ${JSON.stringify(older)});`);
    expect(await page.inputValue("#f-note")).toBe("kept");
    expect(submit.complaints()).toEqual([]);
  });

  test("a draft takes no log that another tab put in the place of its own", async () => {
    const page = await opened();
    await submit.withLog(page);
    await page.waitForTimeout(400);
    const draft = await page.evaluate("localStorage.getItem('motefall.draft')");
    const other = await submit.ready(await page.context().newPage());
    const buffer = Buffer.from(`${CSV}\n`);
    await other.setInputFiles("#f-full_log-file", { name: "other.csv", mimeType: "text/csv", buffer });
    await other.waitForTimeout(600);
    await other.close();
    await page.evaluate(`localStorage.setItem('motefall.draft', ${JSON.stringify(draft)})`);
    await page.goto("about:blank");
    await submit.ready(page);
    expect(await page.inputValue("#f-full_log-file")).toBe("");
    expect(await page.inputValue("#f-room-volume")).toBe("30");
  });

  test("a reload leads back to the place", async () => {
    const page = await opened();
    await submit.withLog(page);
    await page.locator("#f-consent").scrollIntoViewIfNeeded();
    await page.waitForTimeout(400);
    const place = () => page.evaluate("document.getElementById('f-consent').getBoundingClientRect().top");
    const before = Number(await place());
    await page.reload();
    await page.waitForSelector("html[data-scripted]");
    expect(Math.abs(Number(await place()) - before)).toBeLessThan(60);
    expect(submit.complaints()).toEqual([]);
  });

  test("a new key is made once, shown whole on a phone, and said to be lost after a reload", async () => {
    const page = await opened("", { viewport: { width: 360, height: 740 } });
    let made = 0;
    page.on("request", (request) => request.url().endsWith("/v1/keys") && made++);
    await page.getByRole("button", { name: "Make a new key" }).dblclick();
    const code = page.locator(".new-key code");
    await code.waitFor();
    expect(made).toBe(1);
    expect(await code.textContent()).toBe(await page.inputValue("#f-key"));
    const box = (await code.boundingBox())!;
    expect(box.x + box.width).toBeLessThanOrEqual(360);
    expect(await page.evaluate("document.querySelector('.new-key code').scrollWidth")).toBeLessThanOrEqual(
      Math.ceil(box.width),
    );
    await page.reload();
    await page.getByText("Your new key was not kept").waitFor();
    await page.fill("#f-key", "mote_found");
    await page.reload();
    await page.waitForSelector("html[data-scripted]");
    expect(await page.getByText("Your new key was not kept").count()).toBe(0);
    expect(submit.complaints()).toEqual([]);
  });
});
