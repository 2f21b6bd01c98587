import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { THEMES } from "../../../api/pictures/themes.ts";
import { type Opened, openBrowser } from "../../support/browser.ts";
import { newKey, store } from "../../support/client.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { listPins } from "../../support/pinned-answers.ts";
import { SAMPLE_CONFIGURATION, sampleTrial, withoutFlow } from "../../support/sample-trial.ts";

describe.skipIf(!chromiumPath)("plots as SVG (Debian's chromium)", () => {
  let opened: Opened;
  let page: Page;
  let plots: string[];
  const title = `</title><script>alert(1)</script> & "box" \ufffe]]> 漢字 ${"long words ".repeat(4)}`.trim();
  beforeAll(async () => {
    opened = await openBrowser();
    page = await opened.open();
    const configuration = { ...withoutFlow(SAMPLE_CONFIGURATION), title };
    for (const seed of [1, 2, 3]) {
      const key = await newKey(opened.target, seed === 1 ? `<&> ${"handle ".repeat(6)}`.trim() : undefined);
      const named = sampleTrial(seed, { configuration, invented: true }).runs.map((run) => {
        const [channel] = run.series.channels;
        return { ...run, series: { ...run.series, channels: [{ ...channel!, id: `<n1> & "one" \ufffe` }] } };
      });
      await store(opened.target, key, sampleTrial(seed, { configuration, invented: true, runs: named }));
    }
    const pins = await listPins(opened.target.databaseUrl!);
    plots = pins.map((pin) => `${pin}/${pin.includes("ent-") ? "rooms" : "decay"}.svg`);
  }, 60_000);
  afterAll(() => opened?.stop());

  test.each(["light", "dark"] as const)(
    "each is well-formed, asks for nothing, and keeps its words inside: %s",
    async (theme) => {
      expect(plots.length).toBeGreaterThan(6);
      for (const plot of plots) {
        await page.goto(`${opened.target.url}${plot}?theme=${theme}`);
        const found = await page.evaluate(() => {
          const root = (globalThis as unknown as { document: { documentElement: SvgRoot } }).document.documentElement;
          const { x, width, height } = root.viewBox.baseVal;
          const outside = [...root.querySelectorAll("text")].flatMap((text) => {
            const box = text.getBoundingClientRect();
            const frame = root.getBoundingClientRect();
            const inside = box.left >= frame.left && box.right <= frame.right + 0.5 && box.bottom <= frame.bottom + 0.5;
            return inside ? [] : [text.textContent];
          });
          const ground = root.querySelectorAll("rect")[0]!.getAttribute("fill");
          const malformed = root.querySelectorAll("parsererror").length;
          return { name: root.localName, x, width, height, outside, ground, malformed };
        });
        expect([plot, found]).toEqual([
          plot,
          {
            name: "svg",
            x: -24,
            width: 908,
            height: expect.any(Number),
            outside: [],
            ground: THEMES[theme].paper,
            malformed: 0,
          },
        ]);
      }
      expect(opened.complaints()).toEqual([]);
    },
    60_000,
  );
});

/** What is asked of an SVG here; the tests' own types know no document. */
interface SvgRoot {
  readonly localName: string;
  readonly viewBox: { readonly baseVal: { readonly x: number; readonly width: number; readonly height: number } };
  getBoundingClientRect(): Box;
  querySelectorAll(name: string): Iterable<Shape> & { readonly [n: number]: Shape; readonly length: number };
}
interface Box {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
}
interface Shape {
  readonly textContent: string;
  getBoundingClientRect(): Box;
  getAttribute(name: string): string | null;
}
