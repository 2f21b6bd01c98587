import type { BrowserContextOptions, Page, Request } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { toCsv } from "../../../analysis/simulate/to-csv.ts";
import { leaderboard, newKey } from "../../support/client.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { sampleLog } from "../../support/sample-trial.ts";
import { CSV, FIGURE, openSubmit, type SubmitInBrowser } from "../../support/submit-in-browser.ts";

const FORBID = `for (const name of ["localStorage", "sessionStorage", "indexedDB"])
  Object.defineProperty(window, name, { get() { throw new DOMException("no", "SecurityError"); } });`;
const FULL = `Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); };
  IDBObjectStore.prototype.put = function () { this.transaction.abort(); };`;

describe.skipIf(!chromiumPath)("the form in trouble, where scripts run (Debian's chromium)", () => {
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

  let seed = 50;
  async function filled(page: Page, title: string): Promise<void> {
    const buffer = Buffer.from(toCsv(sampleLog(seed++).series).replace("n1", "0.3-1.0 um")); // nobody else's readings
    await page.fill("#f-room-volume", "30");
    await page.setInputFiles("#f-full_log-file", { name: "log.csv", mimeType: "text/csv", buffer });
    await page.waitForSelector(FIGURE);
    await page.fill("#f-performed_at", "2026-10-03T18:20");
    await page.locator("#f-performed_at").blur();
    await page.check("input[name=interest][value=independent]");
    await page.getByText("It is not listed").click();
    if (!(await page.isVisible("#f-described-title"))) await page.getByText("Describe it", { exact: true }).click();
    await page.fill("#f-described-title", title);
    await page.check("input[name='described.kind'][value=user_built]");
    await page.fill("#f-described-parts-0-description", `fan of the ${title}`);
    await page.fill("#f-key", await newKey(submit.target));
    await page.check("#f-consent");
  }

  const publish = (page: Page) => page.getByRole("button", { name: "Publish the test" });
  const said = (page: Page, words: string) => page.getByRole("alert").filter({ hasText: words }).waitFor();
  const countOf = async (title: string) =>
    (await leaderboard(submit.target, "?unpaired=include")).entries.find(
      ({ configuration }) => configuration.title === title,
    )?.trials ?? 0;

  for (const [name, script] of [
    ["forbidden", FORBID],
    ["full", FULL],
  ] as const) {
    test(`storage ${name}: looked at and published all the same, and said that nothing is kept`, async () => {
      const page = await opened(script);
      await filled(page, `Gull box, ${name}`);
      await page.locator("#draft", { hasText: "keeps no draft" }).waitFor();
      await page.click("#keep-key");
      await page.getByText("This browser keeps nothing: keep the key yourself.").waitFor();
      expect(await page.isChecked("#keep-key")).toBe(false);
      await publish(page).click();
      await page.waitForURL("**/trials/trl-*");
      expect(submit.complaints()).toEqual([]);
    });
  }

  test("nothing but what is searched for and described is sent while one writes", async () => {
    const page = await opened();
    const sent: Request[] = [];
    page.on("request", (request) => request.method() === "POST" && sent.push(request));
    await submit.withLog(page);
    await page.fill("#f-room-volume", "-3");
    await page.locator("#f-room-volume").blur();
    await page.locator("#f-room-volume-error").waitFor();
    await page.fill("#f-room-volume", "30");
    expect(sent).toEqual([]);
    await page.evaluate("for (const fold of document.querySelectorAll('details')) fold.open = true");
    await page.fill("#f-room-label", "secret shed");
    await page.fill("#f-note", "secret note");
    await page.fill("#f-handle", "secret name");
    await page.fill("#f-key", "mote_secret");
    const answered = page.waitForResponse("**/submit");
    await page.fill("#f-find", "harbour");
    await answered;
    const rows = page.waitForResponse("**/submit");
    await page.fill("#f-noise-0-level", "44");
    await page.locator("#f-noise-0-level").blur();
    await rows;
    expect(sent.length).toBeGreaterThan(1);
    for (const request of sent) {
      expect(request.postData()).not.toMatch(/secret|0\.3-1\.0|room|_log/);
      expect(request.postData()).toContain("harbour");
    }
  });

  test("what the registry, or what stands before it, answers is told for what it is", async () => {
    const page = await opened();
    await filled(page, "Plover box");
    const json = (body: unknown) => ({ contentType: "application/json", body: JSON.stringify(body) });
    const cases: [object, string][] = [
      [{ status: 401, ...json({ detail: "This key was revoked." }) }, "This key was revoked."],
      [{ status: 413, contentType: "text/html", body: "<h1>413</h1>" }, "too large to send"],
      [{ status: 429, headers: { "Retry-After": "30" }, body: "slow" }, "Try again in 30 s"],
      [{ status: 429, headers: { "Retry-After": "3600" }, ...json({ detail: "x" }) }, "Try again in 60 min"],
      [{ status: 400, ...json({ error: "proxy" }) }, "a fault (400)"],
      [{ status: 200, ...json({ ok: true }) }, "a fault (200)"],
      [{ status: 500, ...json({ detail: "The error was logged." }) }, "a fault (500)"],
      [{ status: 409, ...json({ detail: "This room has another volume.", errors: [] }) }, "another volume"],
    ];
    for (const [answer, words] of cases) {
      await page.route("**/v1/trials", (route) => route.fulfill(answer), { times: 1 });
      await publish(page).click();
      await said(page, words);
    }
    await page.fill("#f-key", "mote_\u200bÄ");
    await publish(page).click();
    await said(page, "No key is written with such letters");
    expect(await page.content()).not.toMatch(/undefined|NaN/);
    submit.complaints();
  });

  test("changed after an answer was lost: told that the first was published, never taken for it", async () => {
    const page = await opened();
    await filled(page, "Knot box");
    await page.route(
      "**/v1/trials",
      async (route) => {
        await route.fetch(); // stored, and the answer lost on the way
        await route.abort("aborted");
      },
      { times: 1 },
    );
    await publish(page).click();
    await said(page, "No connection");
    await page.evaluate("for (const fold of document.querySelectorAll('details')) fold.open = true");
    await page.fill("#f-note", "a second thought");
    await publish(page).click();
    await said(page, "did arrive: it is published as trl-");
    expect(await countOf("Knot box")).toBe(1);
    await publish(page).click();
    await page.waitForURL("**/trials/trl-*");
    expect(await countOf("Knot box")).toBe(2);
    submit.complaints();
  });

  test("pressed twice, stored once; what it leads to says what the key is for; the form is empty when one goes back", async () => {
    const page = await opened();
    await filled(page, "Dunlin box");
    let posts = 0;
    page.on("request", (request) => request.method() === "POST" && request.url().endsWith("/v1/trials") && posts++);
    await publish(page).dblclick();
    await page.waitForURL("**/trials/trl-*?published=yes");
    expect(posts).toBe(1);
    expect(await countOf("Dunlin box")).toBe(1);
    await page.getByText("Keep your key").waitFor();
    await page.goBack();
    await page.getByText("This form is for another test").waitFor();
    await page.waitForSelector("html[data-scripted]");
    expect(await page.inputValue("#f-full_log-file")).toBe("");
    expect(await page.inputValue("#f-described-title")).toBe("");
    expect(await page.inputValue("#f-key")).toBe("");
    expect(await page.isChecked("#f-consent")).toBe(false);
    expect(await page.locator(FIGURE).count()).toBe(0);
    expect(await page.evaluate("scrollY")).toBe(0);
    expect(submit.complaints()).toEqual([]);
  });

  test("hostile names of columns and files are words, in the page that the script makes too", async () => {
    const page = await opened();
    const hostile = `<img src=x onerror=alert(1)>'&quot;</script>`;
    await page.fill("#f-room-volume", "30");
    const text = CSV.replace("0.3-1.0 um", hostile);
    await page.setInputFiles("#f-full_log-file", {
      name: `<svg onload=alert(2)>.csv`,
      mimeType: "text/csv",
      buffer: Buffer.from(text),
    });
    await page.locator("#preview").getByText("onerror=alert").first().waitFor({ state: "attached" });
    expect(await page.locator("#preview img, #preview svg[onload], #preview script").count()).toBe(0);
    expect(submit.complaints()).toEqual([]);
  });
});
