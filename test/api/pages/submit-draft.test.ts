import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { leaderboard, newKey, store } from "../../support/client.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { CSV, FIGURE, openSubmit, type SubmitInBrowser } from "../../support/submit-in-browser.ts";

describe.skipIf(!chromiumPath)("a draft becomes a test where scripts run (Debian's chromium)", () => {
  let submit: SubmitInBrowser;
  beforeAll(async () => {
    submit = await openSubmit();
  }, 60_000);
  afterAll(() => submit?.stop());
  afterEach(() => expect(submit.complaints()).toEqual([]));

  test("a draft outlives a reload, log and corrections and all, and can be thrown away; it never holds the key", async () => {
    const page = await submit.ready(await submit.open());
    await submit.withLog(page);
    await page.fill("#f-full_log-mark-cleaner_on", "32");
    await page.getByText("Specimen, filter, notes").click();
    await page.fill("#f-note", "kept");
    await page.fill("#f-key", "mote_secret");
    await page.check("input[name=interest][value=paid]");
    await page.getByText("as they were read").click();
    await page.fill("#f-full_log-columns-1-from", "0.35");
    const figure = await submit.byServer([{ event: "cleaner_on", t: 1920 }], CSV.replace("0.3-1.0 um", "0.35-1.0 um"));
    await submit.isNow(page, figure);
    await page.waitForTimeout(400);
    expect(await page.evaluate("JSON.stringify(localStorage)")).not.toContain("mote_secret");
    await submit.ready(page);
    await submit.isNow(page, figure);
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
    const key = await newKey(submit.target);
    await store(submit.target, key, sampleTrial(1));
    const page = await submit.ready(await submit.open());
    await submit.withLog(page);
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
    await page.locator(FIGURE, { hasText: "per hour" }).waitFor(); // rates need no size
    await page.fill("#f-room-volume", "30");
    await submit.isNow(page, await submit.byServer());
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
    await submit.ready(page);
    expect(await page.inputValue("#f-described-parts-3-description")).toBe("a fourth part");
    expect(await page.locator("#found input:checked").getAttribute("value")).toMatch(/^cfg-\S+ High$/);
  });

  test("a key on the spot; a fault and a broken connection keep the draft; published once, and listed", async () => {
    const before = (await leaderboard(submit.target, "?unpaired=include")).entries.length;
    const page = await submit.ready(
      await submit.open({ timezoneId: "Asia/Kolkata", permissions: ["clipboard-write"] }),
    );
    await submit.withLog(page);
    await page.fill("#f-performed_at", "2026-10-03T18:20");
    await page.locator("#f-performed_at").blur();
    expect(await page.inputValue("#f-performed_offset")).toBe("+05:30");
    await page.check("input[name=interest][value=independent]");
    await page.getByText("It is not listed").click(); // which opens the description
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
    await submit.ready(page);
    await page.waitForSelector(FIGURE);
    expect(await page.inputValue("#f-described-title")).toBe("Skerry box");
    await page.fill("#f-key", key);
    await page.check("#f-consent");
    await publish.click();
    await page.waitForURL("**/trials/trl-*");
    expect(await page.textContent("h1")).toContain("Skerry box");
    const after = await leaderboard(submit.target, "?unpaired=include");
    expect(after.entries).toHaveLength(before + 1);
    expect(after.entries.find(({ configuration }) => configuration.title === "Skerry box")?.trials).toBe(1);
    await submit.ready(page);
    expect(await page.locator("#draft").count()).toBe(0);
    await page.goto(`${submit.target.url}/?unpaired=include`);
    expect(await page.getByText("Skerry box").count()).toBeGreaterThan(0);
  });

  test("a key that the browser is asked to keep is there the next time", async () => {
    const page = await submit.ready(await submit.open());
    await page.fill("#f-key", "mote_kept");
    await page.check("#keep-key");
    await submit.ready(page);
    expect(await page.inputValue("#f-key")).toBe("mote_kept");
    await page.uncheck("#keep-key");
    await submit.ready(page);
    expect(await page.inputValue("#f-key")).toBe("");
  });
});
