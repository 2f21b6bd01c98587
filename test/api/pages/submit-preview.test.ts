import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { axeViolations } from "../../support/axe-violations.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { CSV, FIGURE, openSubmit, type SubmitInBrowser } from "../../support/submit-in-browser.ts";

describe.skipIf(!chromiumPath)("a log is previewed where scripts run (Debian's chromium)", () => {
  let submit: SubmitInBrowser;
  beforeAll(async () => {
    submit = await openSubmit();
  }, 60_000);
  afterAll(() => submit?.stop());
  afterEach(() => expect(submit.complaints()).toEqual([]));

  test("a log dropped on the page is analysed at once, and a corrected column again", async () => {
    const page = await submit.ready(await submit.open());
    await page.fill("#f-room-volume", "30");
    const two = CSV.split("\n").map((line, i) => (line ? `${line},${i === 0 ? "temperature" : 21.5}` : line));
    await page.evaluate(`(() => {
      const dropped = new DataTransfer();
      dropped.items.add(new File([${JSON.stringify(two.join("\n"))}], "log.csv", { type: "text/csv" }));
      document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: dropped, bubbles: true, cancelable: true }));
    })()`);
    await submit.isNow(page, await submit.byServer([], two.join("\n")));
    expect(await page.textContent("#said")).toContain(await page.textContent(FIGURE));
    await page.getByText("as they were read").click();
    expect(await page.inputValue("#f-full_log-columns-1-use")).toBe("raw");
    await page.selectOption("#f-full_log-columns-1-use", "none");
    await page.locator("#said", { hasText: "Nothing to show yet" }).waitFor();
    await page.selectOption("#f-full_log-columns-1-use", "raw");
    await submit.isNow(page, await submit.byServer([], two.join("\n")));
  });

  test("a pasted log is taken as well; the volume of three sides in feet is shown in both units", async () => {
    const page = await submit.ready(await submit.open());
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
    const page = await submit.ready(await submit.open());
    await submit.withLog(page);
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
    await submit.isNow(page, await submit.byServer([{ event: "cleaner_on", t: dragged * 60 }]));
    await grip.focus();
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("PageDown");
    const keyed = Number(await minutes.inputValue());
    expect(keyed).toBeCloseTo(dragged - 1.1, 6);
    await submit.isNow(page, await submit.byServer([{ event: "cleaner_on", t: keyed * 60 }]));
    expect(await grip.getAttribute("aria-valuetext")).toBe(`${keyed.toFixed(1)} minutes, as marked`);
    expect(await page.evaluate("document.activeElement.getAttribute('aria-label')")).toBe("cleaner on");
    await minutes.fill(String(found.toFixed(1)));
    await page
      .locator(".grip.stated", { hasText: `cleaner on ${found.toFixed(1)}` })
      .first()
      .waitFor();
    await grip.focus();
    await page.keyboard.press("Delete");
    await submit.isNow(page, await submit.byServer());
    expect(await minutes.inputValue()).toBe("");
  });

  test("by touch too", async () => {
    const page = await submit.ready(await submit.open({ viewport: { width: 360, height: 740 }, hasTouch: true }));
    await submit.withLog(page);
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
    await submit.isNow(page, await submit.byServer([{ event: "cleaner_on", t: minutes * 60 }]));
    const overflow = await page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
    expect(overflow).toBeLessThanOrEqual(0);
  });

  test("where the page is not in a secure context the server previews", async () => {
    const page = await submit.open();
    await page.addInitScript("Object.defineProperty(crypto, 'subtle', { value: undefined })");
    await submit.ready(page);
    const asked = page.waitForRequest((request) => request.method() === "POST" && request.url().endsWith("/submit"));
    await submit.withLog(page);
    await asked;
    await submit.isNow(page, await submit.byServer());
  });

  test.each(["light", "dark"] as const)("axe finds no fault with a preview on the page, %s", async (colorScheme) => {
    const page = await submit.ready(await submit.open({ colorScheme }));
    await submit.withLog(page);
    await page.getByRole("button", { name: "Publish the test" }).click();
    await page.getByRole("alert").waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.setViewportSize({ width: 320, height: 700 });
    const overflow = await page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
    expect(overflow).toBeLessThanOrEqual(0);
  });
});
