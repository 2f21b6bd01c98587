import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { chromiumPath } from "../../support/find-chromium.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { CSV, FIGURE, openSubmit, type SubmitInBrowser } from "../../support/submit-in-browser.ts";
import { csv, FormClient } from "./form-client.ts";
import { FormOfPage } from "./form-of-page.ts";

const OTHER = CSV.split("\n").slice(0, -30).join("\n");
const log = (name: string, text: string) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });

describe.skipIf(!chromiumPath)("the log of a form, where scripts run (Debian's chromium)", () => {
  let submit: SubmitInBrowser;
  beforeAll(async () => {
    submit = await openSubmit();
  }, 60_000);
  afterAll(() => submit?.stop());
  afterEach(() => expect(submit.complaints()).toEqual([]));

  test("another file clears marks and columns of the last one and says so; a draft's own file does not", async () => {
    const page = await submit.ready(await submit.open());
    await submit.withLog(page);
    await page.fill("#f-full_log-mark-cleaner_on", "32");
    await page.getByText("as they were read").click();
    await page.fill("#f-full_log-columns-1-from", "0.35");
    await page.waitForTimeout(700);
    await submit.ready(page);
    await page.waitForSelector(FIGURE);
    expect(await page.inputValue("#f-full_log-mark-cleaner_on")).toBe("32");
    await page.setInputFiles("#f-full_log-file", log("other.csv", OTHER));
    await submit.isNow(page, await submit.byServer([], OTHER));
    expect(await page.inputValue("#f-full_log-mark-cleaner_on")).toBe("");
    expect(await page.inputValue("#f-full_log-columns-1-from")).toBe("0.3");
    expect(await page.textContent("#full_log-forgotten")).toMatch(/cleared/);
  });

  test("an empty file is named", async () => {
    const page = await submit.ready(await submit.open());
    await page.setInputFiles("#f-full_log-file", log("bare.csv", ""));
    await page.locator("#f-full_log-file-error", { hasText: "“bare.csv” is empty (0 bytes)." }).waitFor();
    expect(await page.textContent("#said")).toContain("“bare.csv” is empty");
  });

  test("rates and phases are drawn before the size of the room is known; an impossible mark hides nothing", async () => {
    const page = await submit.ready(await submit.open());
    await page.setInputFiles("#f-full_log-file", log("log.csv", CSV));
    await page.locator(FIGURE, { hasText: "per hour" }).waitFor();
    expect(await page.locator("#preview svg").count()).toBeGreaterThan(0);
    expect(await page.locator("#preview details[data-auto]").count()).toBe(0);
    expect(await page.textContent("#preview")).toContain("Clean air: ");
    expect(await page.textContent("#preview")).not.toMatch(/m³\/h/);
    await page.fill("#f-full_log-mark-cleaner_on", "500");
    await page.locator("#said", { hasText: "Cleaner on from, min: The log holds the minutes from 0 to" }).waitFor();
    expect(await page.locator("#preview .grip").count()).toBeGreaterThan(0);
    await page.fill("#f-full_log-mark-cleaner_on", "");
    await page.fill("#f-room-volume", "-3");
    await page.locator("#said", { hasText: "More than 0" }).waitFor();
    await page.fill("#f-room-volume", "30 m³");
    await submit.isNow(page, await submit.byServer());
  });
});

describe("the log of a form, without scripts", () => {
  let target: InProcess;
  let client: FormClient;
  beforeAll(async () => {
    target = await startInProcess();
    client = new FormClient(target);
  });
  afterAll(() => target.stop());

  test("another file takes the marks of the kept one away and says so; the same file does not", async () => {
    const fields = { "full_log.file": csv(), "room.volume": "30", "full_log.mark.cleaner_on": "32" };
    const first = await client.shown((await client.empty()).send("preview", fields));
    const same = await client.shown(first.send("preview", { "full_log.file": csv() }));
    expect(same.fields.get("full_log.mark.cleaner_on")).toBe("32");
    const other = await client.shown(first.send("preview", { "full_log.file": csv(OTHER) }), 422);
    expect(other.complaints.get("full_log-file")).toMatch(/cleared/);
    expect(other.fields.get("full_log.mark.cleaner_on")).toBe("");
  });

  test("an empty file is named; the size of the room is asked for beside the rates", async () => {
    const bare = new File([], "bare.csv", { type: "text/csv" });
    const empty = await client.shown((await client.empty()).send("preview", { "full_log.file": bare }), 422);
    expect(empty.complaints.get("full_log-file")).toBe("“bare.csv” is empty (0 bytes).");
    const unsized = await client.shown((await client.empty()).send("preview", { "full_log.file": csv() }), 422);
    expect(unsized.complaints.get("room-volume")).toContain("size is needed");
    expect(unsized.html).toMatch(/class="figure"><span class="q">[\d.]+ ± [\d.]+ per hour/);
    expect(unsized.html).toContain("<svg");
  });

  test("a log too large to be sent takes nothing else with it", async () => {
    const huge = csv(`${CSV}${"#".repeat(5_000_000)}`);
    const body = (await client.empty()).send("preview", { "full_log.file": huge, "room.volume": "30", note: "in µm" });
    const wire = new Response(body);
    const bytes = await wire.arrayBuffer();
    const headers = { "Content-Type": wire.headers.get("Content-Type")!, "Content-Length": String(bytes.byteLength) };
    const answer = await target.request("/submit", { method: "POST", headers, body: bytes });
    expect(answer.status).toBe(413);
    const form = new FormOfPage(await answer.text());
    expect(form.summary.others.join()).toMatch(/Logs of more than 4 MiB in all cannot be taken: .* hours of the test/);
    expect([form.fields.get("room.volume"), form.fields.get("note")]).toEqual(["30", "in µm"]);
    expect(form.html).toContain("What was filled in is kept below.");
  });

  test("a log of too many values is answered in the form's own words", async () => {
    const wide = CSV.split("\n").flatMap((line, i) => {
      const more = Array.from({ length: 600 }, (_, n) => (i === 0 ? `c${n} #/cm3` : String(1 + (n % 7)))).join(",");
      return line ? [`${line},${more}`] : [];
    });
    const form = await client.shown(
      (await client.empty()).send("preview", { "full_log.file": csv(wide.join("\n")), "room.volume": "30" }),
      422,
    );
    expect(form.complaints.get("full_log-file")).toMatch(/Set columns below to “not used”, or cut the file/);
    expect((await client.empty()).html).toMatch(/4 MB at most, and 200\u00a0000 times and readings/);
  });
});
