import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { simulateRuns } from "../../../analysis/simulate/simulate-log.ts";
import { type Opened, openBrowser } from "../../support/browser.ts";
import { newKey, store } from "../../support/client.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { checkPage } from "../../support/page-checks.ts";
import { sampleLog, sampleScenario, sampleTrial, sentSeries } from "../../support/sample-trial.ts";

/** What a person would state beside the runs. */
const DESCRIBED = {
  specimen: "the box by the door",
  filter_state: { hours: 40, condition: "used" },
  noise: [
    {
      quantity: "L_pA",
      level: { value: 47, unit: "dB" },
      background: { value: 35, unit: "dB" },
      distance: { value: 1, unit: "m" },
      meter: "phone",
    },
  ],
  power: { value: 38, unit: "W", u: 1 },
  trials_made: 2,
  note: "Salt water from a nebuliser, kept well away from the mains; the fan of the room ran before the first reading.",
};

/** Two of each kind of run, logged by two counters or one after the other. */
function sixRuns() {
  return [23, 24].flatMap((seed) => {
    const { schedule: _, ...scenario } = sampleScenario(seed);
    const runs = simulateRuns(scenario, { background: 300, natural: 1500, total: 1500 });
    return (["background", "natural", "total"] as const).map((role) => ({
      role,
      series: sentSeries(runs[role].series),
    }));
  });
}

describe.skipIf(!chromiumPath)("a trial on paper (Debian's chromium)", () => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await openBrowser();
  }, 60_000);
  afterAll(() => opened?.stop());

  test.each([
    ["three runs", 1, sampleTrial(21, DESCRIBED)],
    ["six runs", 2, sampleTrial(23, { ...DESCRIBED, runs: sixRuns() })],
    [
      "one log of everything, marked, with doubts about it",
      1,
      sampleTrial(22, {
        ...DESCRIBED,
        room: { label: "Loft", volume: { value: 30, unit: "m3" }, mixing_fan: "off" },
        runs: [
          {
            role: "full_log",
            series: sentSeries(sampleLog(22).series),
            marks: [
              { event: "aerosol_end", t: 420 },
              { event: "cleaner_on", t: 1920 },
            ],
          },
        ],
      }),
    ],
  ])("%s: at most %i page of A4, in type that can be read", async (_, pages, sent) => {
    const trial = await store(opened.target, await newKey(opened.target), sent);
    for (const colorScheme of ["light", "dark"] as const) {
      const page = await opened.open({ colorScheme });
      await page.goto(`${opened.target.url}/trials/${trial.id}`);
      const pdf = (await page.pdf({ format: "A4" })).toString("latin1");
      expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)!.length).toBeLessThanOrEqual(pages);
      await page.emulateMedia({ media: "print" });
      await page.setViewportSize({ width: 725, height: 1070 }); // A4 less its margins, in CSS pixels
      expect(await checkPage(page, "tinyWords")).toEqual([]); // 11 px are 8.25 pt
      expect(await page.locator("#decays svg:visible").count()).toBeGreaterThan(1);
      expect(await page.locator("summary:visible, nav:visible").count()).toBe(0);
      await page.context().close();
    }
    expect(opened.complaints()).toEqual([]);
  });
});
