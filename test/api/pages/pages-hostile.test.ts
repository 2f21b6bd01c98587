import Papa from "papaparse";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { axeViolations } from "../../support/axe-violations.ts";
import { type Opened, openBrowser } from "../../support/browser.ts";
import { leaderboard, newKey, type StoredTrial } from "../../support/client.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { HOSTILE, hostileTrial } from "../../support/hostile-text.ts";
import { checkPage } from "../../support/page-checks.ts";
import { bearer, json } from "../../support/sample-trial.ts";

interface Stored extends StoredTrial {
  readonly note: string;
  readonly room: { readonly id: string };
}

describe.skipIf(!chromiumPath)("hostile words in every field are shown harmlessly", () => {
  let opened: Opened;
  let page: Page;
  const trials: Stored[] = [];
  let entries: string[] = [];
  beforeAll(async () => {
    opened = await openBrowser();
    const { request } = opened.target;
    for (const shift of HOSTILE.keys()) {
      const key = await newKey(opened.target, HOSTILE[shift]!.slice(0, 60).trim());
      const post = async (path: string, body: RequestInit) => {
        const answer = await request(path, body);
        expect([answer.status, answer.ok ? "" : await answer.text()]).toEqual([answer.ok ? answer.status : 0, ""]);
        return answer;
      };
      const form = hostileTrial(shift);
      const answer = await post("/v1/trials", { method: "POST", headers: bearer(key), body: form });
      trials.push((await answer.json()) as Stored);
      const reason = HOSTILE[(shift + 1) % HOSTILE.length]!.slice(0, 1000);
      const volume = { value: 31, unit: "m3", u: 0.6 };
      await post(`/v1/rooms/${trials.at(-1)!.room.id}/revisions`, json({ volume, reason }, bearer(key)));
      if (shift === 0) await post(`/v1/trials/${trials[0]!.id}/withdrawal`, json({ reason }, bearer(key)));
    }
    entries = (await leaderboard(opened.target)).entries.map(({ id }) => id);
    page = await opened.open();
  });
  afterAll(() => opened?.stop());

  async function look(path: string, withAxe: boolean): Promise<void> {
    const faults: string[] = [];
    for (const width of [320, 1280]) {
      await page.setViewportSize({ width, height: 900 });
      const answer = await page.goto(opened.target.url + path);
      expect(answer!.status()).toBe(200);
      expect(answer!.headers()["content-security-policy"]).toContain("default-src 'none'");
      await checkPage(page, "openDetails");
      for (const check of ["unsafe", "sideways"] as const) {
        faults.push(...(await checkPage(page, check)).map((each) => `${width} px: ${each}`));
      }
      if (withAxe && width === 320) faults.push(...(await axeViolations(page)));
    }
    expect(faults, faults.join("\n")).toEqual([]);
    expect(opened.complaints()).toEqual([]);
  }

  test.each(["/", "/configurations", `/submit?find=${encodeURIComponent(HOSTILE[0])}`])("%s", (path) =>
    look(path, true),
  );

  test("comparison", () => look(`/compare?entries=${entries.slice(0, 3)}`, true));

  test("my room", () => look("/room?volume=50&air_changes=4&unpaired=include", true));

  test.each([...HOSTILE.keys()])("a trial, its configuration and its entry, %i", async (n) => {
    const { id, configuration, note } = trials[n]!;
    await look(`/configurations/${configuration.id}`, n < 2);
    if (entries[n]) await look(`/entries/${entries[n]}`, n < 2);
    await look(`/trials/${id}`, n < 2);
    const shown = (await page.locator("main").textContent())!.replace(/\s+/g, " ");
    expect(shown).toContain(note.replace(/\s+/g, " ").trim());
  });

  test.each(["/", "/room", "/plan", "/compare", "/configurations"])("in an address of %s", async (path) => {
    const names = [
      "band",
      "noise_max",
      "volume",
      "length",
      "cadr",
      "entries",
      "q",
      "cursor",
      "sort",
      "unit",
      "aerosol",
    ];
    for (const words of HOSTILE) {
      const query = new URLSearchParams(names.map((name): [string, string] => [name, words.slice(0, 300)]));
      const answer = await page.goto(`${opened.target.url}${path}?${query}`);
      expect([200, 400, 404, 422]).toContain(answer!.status());
      expect(await checkPage(page, "unsafe")).toEqual([]);
    }
    expect(opened.complaints()).toEqual([]);
  });

  test("a list for spreadsheets has no cell that runs", async () => {
    const text = await (await opened.target.request("/v1/leaderboard?format=csv")).text();
    const rows = Papa.parse<string[]>(text.trim()).data;
    expect(rows.length).toBe(entries.length + 1);
    expect(rows.flat().filter((cell) => /^[=+@\t\r]|^-(?![\d.])/.test(cell))).toEqual([]);
    expect(text).toContain(`'=HYPERLINK`);
  });
});
