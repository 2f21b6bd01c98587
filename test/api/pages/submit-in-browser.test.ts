import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { toCsv } from "../../../analysis/simulate/to-csv.ts";
import { plusMinus } from "../../../api/pages/figures.ts";
import type { AnalysisOut } from "../../../api/wire/analysis.ts";
import { axeViolations } from "../../support/axe-violations.ts";
import { type Opened, openBrowser } from "../../support/browser.ts";
import { leaderboard, newKey, store } from "../../support/client.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { SAMPLE_CONFIGURATION, sampleLog, sampleTrial } from "../../support/sample-trial.ts";

const CSV = toCsv(sampleLog(11).series).replace("n1", "0.3-1.0 um");
const FIGURE = "#preview .figure";

describe.skipIf(!chromiumPath)("a test is added where scripts run (Debian's chromium)", () => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await openBrowser();
  }, 60_000);
  afterAll(() => opened?.stop());
  afterEach(() => expect(opened.complaints()).toEqual([]));

  async function ready(page: Page, path = "/submit"): Promise<Page> {
    await page.goto(opened.target.url + path);
    await page.waitForSelector("html[data-scripted]");
    return page;
  }

  /** The figure that `POST /v1/analyses` gives of the log in 30 m³. */
  async function byServer(marks: readonly { event: string; t: number }[] = [], csv = CSV): Promise<string> {
    const trial = { room: { volume: { value: 30, unit: "m3" } }, runs: [{ role: "full_log", file: "log", marks }] };
    const form = new FormData();
    form.set("trial", JSON.stringify(trial));
    form.set("log", new Blob([csv]), "log.csv");
    const answer = await opened.target.request("/v1/analyses", { method: "POST", body: form });
    const { results } = (await answer.json()) as AnalysisOut;
    const shown = results.find(({ band }) => band.kind === "standard") ?? results[0]!;
    return `${plusMinus(shown.cadr)} m³/h`;
  }

  async function withLog(page: Page, csv = CSV): Promise<void> {
    await page.fill("#f-room-volume", "30");
    await page.setInputFiles("#f-full_log-file", { name: "log.csv", mimeType: "text/csv", buffer: Buffer.from(csv) });
    await page.waitForSelector(FIGURE);
  }

  const isNow = (page: Page, figure: string) => page.locator(FIGURE).filter({ hasText: figure }).waitFor();

  test("a log dropped on the page is analysed at once, and a corrected column again", async () => {
    const page = await ready(await opened.open());
    await page.fill("#f-room-volume", "30");
    const two = CSV.split("\n").map((line, i) => (line ? `${line},${i === 0 ? "temperature" : 21.5}` : line));
    await page.evaluate(`(() => {
      const dropped = new DataTransfer();
      dropped.items.add(new File([${JSON.stringify(two.join("\n"))}], "log.csv", { type: "text/csv" }));
      document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: dropped, bubbles: true, cancelable: true }));
    })()`);
    await isNow(page, await byServer([], two.join("\n")));
    expect(await page.textContent("#said")).toContain(await page.textContent(FIGURE));
    await page.getByText("as they were read").click();
    expect(await page.inputValue("#f-full_log-columns-1-use")).toBe("raw");
    await page.selectOption("#f-full_log-columns-1-use", "none");
    await page.locator("#said", { hasText: "Nothing to show yet" }).waitFor();
    await page.selectOption("#f-full_log-columns-1-use", "raw");
    await isNow(page, await byServer([], two.join("\n")));
  });

  test("a pasted log is taken as well; the volume of three sides in feet is shown in both units", async () => {
    const page = await ready(await opened.open());
    await page.selectOption("#f-room-unit", "ft");
    for (const side of ["length", "width", "height"]) await page.fill(`#f-room-${side}`, "10");
    await page.getByText("Paste it instead").first().click();
    await page.fill("#f-full_log-text", CSV);
    await page.waitForSelector(FIGURE);
    expect(await page.textContent("#room-holds")).toMatch(
      /^Air in the room: 28\.3 ± 1\.1 m³, which is 1000 ± \d+ cubic feet\.$/,
    );
  });

  test("a mark is moved by hand and by keys, its minutes in step, and given back to the log", async () => {
    const page = await ready(await opened.open());
    await withLog(page);
    const grip = page.getByRole("slider", { name: "cleaner on" });
    const minutes = page.locator("#f-full_log-mark-cleaner_on");
    const found = Number(await grip.getAttribute("aria-valuenow"));
    expect(await grip.getAttribute("aria-valuetext")).toMatch(/ minutes, as found$/);
    await grip.scrollIntoViewIfNeeded();
    const box = (await grip.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + 10);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 30, box.y + 14, { steps: 3 });
    await page.mouse.up();
    const dragged = Number(await minutes.inputValue());
    expect(dragged).toBeGreaterThan(found + 1);
    await isNow(page, await byServer([{ event: "cleaner_on", t: dragged * 60 }]));
    await grip.focus();
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("PageDown");
    const keyed = Number(await minutes.inputValue());
    expect(keyed).toBeCloseTo(dragged - 1.1, 6);
    await isNow(page, await byServer([{ event: "cleaner_on", t: keyed * 60 }]));
    expect(await grip.getAttribute("aria-valuetext")).toBe(`${keyed.toFixed(1)} minutes, as marked`);
    expect(await page.evaluate("document.activeElement.getAttribute('aria-label')")).toBe("cleaner on");
    await minutes.fill(String(found.toFixed(1)));
    await page
      .locator(".grip.stated", { hasText: `cleaner on ${found.toFixed(1)}` })
      .first()
      .waitFor();
    await grip.focus();
    await page.keyboard.press("Delete");
    await isNow(page, await byServer());
    expect(await minutes.inputValue()).toBe("");
  });

  test("by touch too", async () => {
    const page = await ready(await opened.open({ viewport: { width: 360, height: 740 }, hasTouch: true }));
    await withLog(page);
    const grip = page.getByRole("slider", { name: "cleaner on" });
    await grip.scrollIntoViewIfNeeded();
    const { x, y, width } = (await grip.boundingBox())!;
    const session = await page.context().newCDPSession(page);
    const touch = (type: string, at: number[]) =>
      session.send("Input.dispatchTouchEvent", {
        type: type as "touchStart",
        touchPoints: at.map((dx) => ({ x: x + width / 2 + dx, y: y + 12 })),
      });
    await touch("touchStart", [0]);
    await touch("touchMove", [10]);
    await touch("touchMove", [25]);
    await touch("touchEnd", []);
    const minutes = Number(await page.inputValue("#f-full_log-mark-cleaner_on"));
    await isNow(page, await byServer([{ event: "cleaner_on", t: minutes * 60 }]));
    const overflow = await page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
    expect(overflow).toBeLessThanOrEqual(0);
  });

  test("a draft outlives a reload, log and corrections and all, and can be thrown away; it never holds the key", async () => {
    const page = await ready(await opened.open());
    await withLog(page);
    await page.fill("#f-full_log-mark-cleaner_on", "32");
    await page.getByText("Specimen, filter, notes").click();
    await page.fill("#f-note", "kept");
    await page.fill("#f-key", "mote_secret");
    await page.check("input[name=interest][value=paid]");
    await page.getByText("as they were read").click();
    await page.fill("#f-full_log-columns-1-from", "0.35");
    const figure = await byServer([{ event: "cleaner_on", t: 1920 }], CSV.replace("0.3-1.0 um", "0.35-1.0 um"));
    await isNow(page, figure);
    await page.waitForTimeout(400);
    expect(await page.evaluate("JSON.stringify(localStorage)")).not.toContain("mote_secret");
    await ready(page);
    await isNow(page, figure);
    expect(await page.inputValue("#f-note")).toBe("kept");
    expect(await page.isChecked("input[name=interest][value=paid]")).toBe(true);
    expect(await page.inputValue("#f-key")).toBe("");
    expect(await page.inputValue("#f-full_log-columns-1-from")).toBe("0.35");
    expect(await page.textContent("#draft")).toContain("is back");
    await Promise.all([page.waitForEvent("load"), page.getByRole("button", { name: "Discard this draft" }).click()]);
    await page.waitForSelector("html[data-scripted]");
    expect(await page.locator("#draft").count()).toBe(0);
    expect(await page.locator(FIGURE).count()).toBe(0);
    expect(await page.inputValue("#f-note")).toBe("");
  });

  test("what is wanting stands beside its field; similar ones are offered while one describes", async () => {
    const key = await newKey(opened.target);
    await store(opened.target, key, sampleTrial(1));
    const page = await ready(await opened.open());
    await withLog(page);
    await page.getByRole("button", { name: "Publish the test" }).click();
    const summary = page.getByRole("alert");
    await summary.waitFor();
    expect(await summary.textContent()).toContain("readers want to know");
    expect(await page.getAttribute("#f-interest", "aria-invalid")).toBe("true");
    expect(await page.textContent("#f-interest-error")).toContain("readers want to know");
    await page.check("input[name=interest][value=paid]");
    expect(await page.locator("#f-interest-error").count()).toBe(0);
    expect(await page.locator("#f-key-error").count()).toBe(1); // what is not put right yet stays, even after another look
    await page.fill("#f-room-volume", "");
    await page.locator("#f-room-volume").blur();
    await page.locator("#f-room-volume-error").waitFor();
    await page.fill("#f-room-volume", "30");
    await page.waitForSelector(FIGURE);
    expect(await page.locator("#f-room-volume-error").count()).toBe(0);
    expect(await page.locator("#f-key-error").count()).toBe(1);
    await page.fill("#f-find", "harbour");
    await page.locator("#found").getByText(SAMPLE_CONFIGURATION.title).first().waitFor();
    expect(await page.evaluate("document.activeElement.id")).toBe("f-find");
    await page.getByText("Describe it", { exact: true }).click();
    await page.getByText("It is not listed").click();
    await page.fill("#f-described-title", SAMPLE_CONFIGURATION.title);
    await page.check("input[name='described.kind'][value=user_built]");
    await page.fill("#f-described-parts-0-description", "axial fan, 200 mm");
    await page.fill("#f-described-parts-1-description", "pleated panel");
    await page.locator("#similar").getByText(SAMPLE_CONFIGURATION.title).first().waitFor();
    expect(await page.evaluate("document.activeElement.id")).toBe("f-described-parts-1-description");
    await page.getByRole("button", { name: "More rows" }).click();
    await page.locator("#f-described-parts-3-description").waitFor();
    expect(await page.inputValue("#f-described-parts-1-description")).toBe("pleated panel");
    await page.fill("#f-described-parts-3-description", "a fourth part");
    await page.locator("#found").getByText("at High").click();
    await page.waitForTimeout(500);
    await ready(page);
    expect(await page.inputValue("#f-described-parts-3-description")).toBe("a fourth part");
    expect(await page.locator("#found input:checked").getAttribute("value")).toMatch(/^cfg-\S+ High$/);
  });

  test("a key on the spot; a fault and a broken connection keep the draft; published once, and listed", async () => {
    const before = (await leaderboard(opened.target, "?unpaired=include")).entries.length;
    const page = await ready(await opened.open({ timezoneId: "Asia/Kolkata", permissions: ["clipboard-write"] }));
    await withLog(page);
    await page.fill("#f-performed_at", "2026-10-03T18:20");
    await page.locator("#f-performed_at").blur();
    expect(await page.inputValue("#f-performed_offset")).toBe("+05:30");
    await page.check("input[name=interest][value=independent]");
    await page.getByText("It is not listed").click();
    await page.getByText("Describe it", { exact: true }).click();
    await page.fill("#f-described-title", "Skerry box");
    await page.check("input[name='described.kind'][value=user_built]");
    await page.fill("#f-described-parts-0-description", "centrifugal fan, 250 mm");
    await page.fill("#f-handle", "Kelp");
    await page.getByRole("button", { name: "Make a new key" }).click();
    await page.locator(".new-key", { hasText: "shown once" }).waitFor();
    expect(await page.inputValue("#f-key")).toMatch(/^mote_/);
    await page.check("#f-consent");
    const publish = page.getByRole("button", { name: "Publish the test" });
    await publish.click();
    await page.locator("#f-key-error", { hasText: "Copy your new key first" }).waitFor();
    await page.getByRole("button", { name: "Copy the key" }).click();
    await page.getByText("Copied.").waitFor();

    await page.route("**/v1/trials", (route) => route.fulfill({ status: 200, body: "<h1>a captive portal</h1>" }), {
      times: 1,
    });
    await publish.click();
    await page.getByRole("alert").filter({ hasText: "draft is kept" }).waitFor();
    await page.route(
      "**/v1/trials",
      async (route) => {
        await route.fetch(); // stored, and the answer lost on the way
        await route.abort("aborted");
      },
      { times: 1 },
    );
    await publish.click();
    await page.getByRole("alert").filter({ hasText: "No connection" }).waitFor();

    const key = await page.inputValue("#f-key");
    await ready(page);
    await page.waitForSelector(FIGURE);
    expect(await page.inputValue("#f-described-title")).toBe("Skerry box");
    await page.fill("#f-key", key);
    await page.check("#f-consent");
    await publish.click();
    await page.waitForURL("**/trials/trl-*");
    expect(await page.textContent("h1")).toContain("Skerry box");
    const after = await leaderboard(opened.target, "?unpaired=include");
    expect(after.entries).toHaveLength(before + 1);
    expect(after.entries.find(({ configuration }) => configuration.title === "Skerry box")?.trials).toBe(1);
    await ready(page);
    expect(await page.locator("#draft").count()).toBe(0);
    await page.goto(`${opened.target.url}/?unpaired=include`);
    expect(await page.getByText("Skerry box").count()).toBeGreaterThan(0);
  });

  test("a key that the browser is asked to keep is there the next time", async () => {
    const page = await ready(await opened.open());
    await page.fill("#f-key", "mote_kept");
    await page.check("#keep-key");
    await ready(page);
    expect(await page.inputValue("#f-key")).toBe("mote_kept");
    await page.uncheck("#keep-key");
    await ready(page);
    expect(await page.inputValue("#f-key")).toBe("");
  });

  test("where the page is not in a secure context the server previews", async () => {
    const page = await opened.open();
    await page.addInitScript("Object.defineProperty(crypto, 'subtle', { value: undefined })");
    await ready(page);
    const asked = page.waitForRequest((request) => request.method() === "POST" && request.url().endsWith("/submit"));
    await withLog(page);
    await asked;
    await isNow(page, await byServer());
  });

  test.each(["light", "dark"] as const)("axe finds no fault with a preview on the page, %s", async (colorScheme) => {
    const page = await ready(await opened.open({ colorScheme }));
    await withLog(page);
    await page.getByRole("button", { name: "Publish the test" }).click();
    await page.getByRole("alert").waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.setViewportSize({ width: 320, height: 700 });
    const overflow = await page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
    expect(overflow).toBeLessThanOrEqual(0);
  });
});
