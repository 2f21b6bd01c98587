import type { Page } from "playwright-core";
import { toCsv } from "../../analysis/simulate/to-csv.ts";
import { plusMinus } from "../../api/pages/figures.ts";
import type { AnalysisOut } from "../../api/wire/analysis.ts";
import { type Opened, openBrowser } from "./browser.ts";
import { sampleLog } from "./sample-trial.ts";

/** A log of both decays, whose channel fills the band 0.1–1.0 µm by half. */
export const CSV = toCsv(sampleLog(11).series).replace("n1", "0.3-1.0 um");
export const FIGURE = "#preview .figure";

/** The page where a test is added, in the browser, with its script running. */
export interface SubmitInBrowser extends Opened {
  /** Goes to the page and waits for its script. */
  ready(page: Page): Promise<Page>;
  /** Chooses a log in 30 m³ and waits for its preview. */
  withLog(page: Page): Promise<void>;
  /** The figure that `POST /v1/analyses` gives of a log in 30 m³. */
  byServer(marks?: readonly { event: string; t: number }[], csv?: string): Promise<string>;
  /** Waits until the preview shows a figure. */
  isNow(page: Page, figure: string): Promise<void>;
}

export async function openSubmit(): Promise<SubmitInBrowser> {
  const opened = await openBrowser();
  return {
    ...opened,
    async ready(page) {
      await page.goto(`${opened.target.url}/submit`);
      await page.waitForSelector("html[data-scripted]");
      return page;
    },
    async withLog(page) {
      await page.fill("#f-room-volume", "30");
      await page.setInputFiles("#f-full_log-file", { name: "log.csv", mimeType: "text/csv", buffer: Buffer.from(CSV) });
      await page.waitForSelector(FIGURE);
    },
    async byServer(marks = [], csv = CSV) {
      const trial = { room: { volume: { value: 30, unit: "m3" } }, runs: [{ role: "full_log", file: "log", marks }] };
      const form = new FormData();
      form.set("trial", JSON.stringify(trial));
      form.set("log", new Blob([csv]), "log.csv");
      const answer = await opened.target.request("/v1/analyses", { method: "POST", body: form });
      const { results } = (await answer.json()) as AnalysisOut;
      const shown = results.find(({ band }) => band.kind === "standard") ?? results[0]!;
      return `${plusMinus(shown.cadr)} m³/h`;
    },
    isNow: (page, figure) => page.locator(FIGURE).filter({ hasText: figure }).waitFor(),
  };
}
