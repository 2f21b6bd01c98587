import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { DRESSES, toCsv } from "../../../analysis/simulate/to-csv.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { sampleLog } from "../../support/sample-trial.ts";
import { CSV, FIGURE, openSubmit, type SubmitInBrowser } from "../../support/submit-in-browser.ts";

const { series } = sampleLog(11);
const dressed = (dress: Parameters<typeof toCsv>[1]) => toCsv(series, dress).replace("n1", "0.3-1.0 um");
const [HEAD, ...ROWS] = CSV.trim().split("\n");
/** The same log in another unit of time, with an offset. */
const scaled = (head: string, perSecond: number, offset: number) =>
  [
    HEAD!.replace("time", head),
    ...ROWS.map((row) => row.replace(/^\d+/, (t) => String(offset + Number(t) * perSecond))),
  ].join("\n");
const zoned = [
  HEAD,
  ...ROWS.map((row) =>
    row.replace(/^\d+/, (t) =>
      new Date(Date.UTC(2026, 9, 3, 16, 20) + 1000 * Number(t) + 7_200_000).toISOString().replace(".000Z", "+02:00"),
    ),
  ),
].join("\n");

describe.skipIf(!chromiumPath)("marks stand at their minutes whatever the log's own time (Debian's chromium)", () => {
  let submit: SubmitInBrowser;
  beforeAll(async () => {
    submit = await openSubmit();
  }, 60_000);
  afterAll(() => submit?.stop());
  afterEach(() => expect(submit.complaints()).toEqual([]));

  test("seconds, minutes, hours, stamps with a zone, newest first: the same grips, the same mark, the same figure", async () => {
    const page = await submit.ready(await submit.open());
    await page.fill("#f-room-volume", "30");
    const seen: Record<string, readonly unknown[]> = {};
    const logs = {
      seconds: CSV,
      minutes: scaled("time (min)", 1 / 60, 15),
      hours: scaled("time [h]", 1 / 3600, 0),
      zoned,
      newestFirst: dressed({ ...DRESSES.stamped, newestFirst: true }),
    };
    for (const [name, text] of Object.entries(logs)) {
      await page.fill("#f-full_log-mark-cleaner_on", "");
      await page.setInputFiles("#f-full_log-file", {
        name: `${name}.csv`,
        mimeType: "text/csv",
        buffer: Buffer.from(text),
      });
      await page.locator("#preview summary", { hasText: `${name}.csv` }).waitFor();
      const grip = page.getByRole("slider", { name: "cleaner on" });
      const found = Number(await grip.getAttribute("aria-valuenow"));
      await page.fill("#f-full_log-mark-cleaner_on", "32.5");
      await page.locator(".mark").first().waitFor({ state: "attached" });
      seen[name] = [found.toFixed(1), await grip.getAttribute("aria-valuetext"), await page.textContent(FIGURE)];
    }
    for (const each of Object.values(seen)) expect(each).toEqual(seen.seconds);
    expect(seen.seconds![1]).toBe("32.5 minutes, as marked");
    expect(seen.seconds![2]).toBe(await submit.byServer([{ event: "cleaner_on", t: 1950 }]));
  });
});
