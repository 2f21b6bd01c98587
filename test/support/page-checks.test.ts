import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { axeViolations } from "./axe-violations.ts";
import { chromiumPath } from "./find-chromium.ts";
import { checkPage } from "./page-checks.ts";
import { PUBLIC_URL } from "./public-url.ts";

type Check = Parameters<typeof checkPage>[1];

const CELL = (head: string, cell: string, caption = "") =>
  `<table><caption>${caption}</caption><thead><tr><th>${head}</th></tr></thead><tbody><tr><td>${cell}</td></tr></tbody></table>`;

describe.skipIf(!chromiumPath)("the checks of pages find what is wrong, and only that", () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: chromiumPath!, args: ["--no-sandbox"] });
    page = await browser.newPage({ viewport: { width: 320, height: 600 } });
  });
  afterAll(() => browser?.close());

  async function found(check: Check, html: string): Promise<string[]> {
    await page.setContent(`<!doctype html><html lang="en"><body><main>${html}</main></body></html>`);
    return (await checkPage(page, check)) as string[];
  }

  test.each<[Check, string, string]>([
    ["sideways", `<p style="width: 400px">wide</p>`, "beyond the edge"],
    ["cutOff", `<p style="width: 40px; overflow: hidden; white-space: nowrap">longer than that</p>`, "cut off"],
    ["crowdedCharts", `<svg width="100" height="50"><text x="90" y="20">outside</text></svg>`, "outside its chart"],
    [
      "crowdedCharts",
      `<svg width="200" height="50"><text x="9" y="20">one</text><text x="12" y="22">two</text></svg>`,
      "over each other",
    ],
    ["tinyWords", `<p style="font-size: 9px">small</p>`, "9.0 px"],
    ["smallTargets", `<a href="#a">1</a> <a href="#b">2</a>`, "small target"],
    ["unsafe", `<p onclick="alert(1)">x</p>`, "not from this page"],
    ["unsafe", `<a href="javascript:alert(1)">x</a>`, "not from this page"],
    ["unsafe", `<img src="/x" alt="">`, "not from this page"],
    ["unsafe", `<img class="card" src="//elsewhere.test/pinned/a/card.png" alt="">`, "not from this page"],
    ["quantityFaults", `<span class="q">601 m³/h</span>`, "no interval"],
    ["quantityFaults", `<span class="q">601 ± 31</span>`, "no unit"],
    ["quantityFaults", `<p>601.2 ± 31 m³/h</p>`, "digits: 601.2 ± 31"],
    ["quantityFaults", `<p>601 ± 131 m³/h</p>`, "digits: 601 ± 131"],
    ["quantityFaults", `<p>0.61 ± 0.1 per hour</p>`, "digits: 0.61 ± 0.1"],
    ["looseNumbers", CELL("Clean air, m³/h", "601"), "not shown as a quantity"],
    ["figuresInWords", `<p>It cleans 601 m³/h.</p>`, "a figure in words"],
  ])("%s: %s", async (check, html, fault) => {
    expect((await found(check, html)).join("\n")).toContain(fault);
  });

  test.each<[Check, string]>([
    ["sideways", `<div class="scroll" style="overflow-x: auto"><p style="width: 400px">wide</p></div>`],
    ["smallTargets", `<p>A sentence with <a href="#a">a link</a> in it.</p>`],
    ["smallTargets", `<p><a href="#a" style="margin: 20px">a</a></p>`],
    ["quantityFaults", `<span class="q">601 ± 31 m³/h</span> <span class="q">118 EUR</span>`],
    ["quantityFaults", `<span class="q">880 (760 to 1030) m³/h</span> <span class="q">under 35.0 dB(A)</span>`],
    ["quantityFaults", CELL("Clean air, m³/h", `<span class="q">600 ± 120</span>`)],
    ["quantityFaults", `<p>0.606 ± 0.038 per hour, 10.0 ± 3.0 min, 0 ± 150 m³/h</p>`],
    ["looseNumbers", CELL("Noise at 1 m", `<small class="missing">not measured; 40 dB(A) stated</small>`)],
    ["figuresInWords", `<p>It cleans 601 ± 31 m³/h; 0.8 per hour, assumed.</p>`],
    ["unsafe", `<img class="card" src="/pinned/trl-1/1/1.0.0/0.1-1.0/card.png" alt="">`],
  ])("%s lets pass: %s", async (check, html) => {
    expect(await found(check, html)).toEqual([]);
  });

  const OEMBED = `rel="alternate" type="application/json+oembed"`;
  test.each([
    [`<script>0</script>`, 1],
    [`<script src="//elsewhere.test/copy.js"></script>`, 1],
    [`<script src="/copy.js"></script>`, 0],
    [`<script type="application/ld+json">{"name":"a \\u003c b"}</script>`, 0],
    [`<script type="application/ld+json">{"name":"a < b"}</script>`, 1],
    [`<script type="application/ld+json">alert(1)</script>`, 1],
    [`<script type="application/ld+json" src="https://elsewhere.test/">{}</script>`, 1],
    [`<script type="application/ld+json; charset=utf-8">{}</script>`, 1],
    [`<script type="text/javascript">{}</script>`, 1],
    [`<link ${OEMBED} href="${PUBLIC_URL}/oembed?url=x">`, 0],
    [`<link ${OEMBED} href="${PUBLIC_URL}.elsewhere.test/oembed?url=x">`, 1],
    [`<link rel="stylesheet" type="application/json+oembed" href="${PUBLIC_URL}/oembed?url=x">`, 1],
    [`<meta property="og:image" content="${PUBLIC_URL}/pinned/x/card.png">`, 0],
    [`<meta property="og:image" content="/pinned/x/card.png">`, 1],
    [`<meta http-equiv="refresh" content="999; url=https://elsewhere.test/">`, 1],
  ])("in the head, %s: %d faults", async (head, count) => {
    await page.setContent(`<!doctype html><html lang="en"><head>${head}</head><body><main>x</main></body></html>`);
    expect(await checkPage(page, "unsafe")).toHaveLength(count);
  });

  test("the keyboard: what is not reached, has no outline, or has a place of its own", async () => {
    await page.setContent(
      `<main><a href="#a">a</a><a href="#b" tabindex="2">b</a><button style="outline: none">c</button>
       <button onfocus="document.querySelector('a').focus()">d</button></main>`,
    );
    await checkPage(page, "watchFocus");
    for (let i = 0; i < 6; i++) await page.keyboard.press("Tab");
    const faults = (await checkPage(page, "focusFaults")).join("\n");
    for (const fault of ["no outline", "out of order", "a place in the order of its own"])
      expect(faults).toContain(fault);
  });

  test("axe: pale words", async () => {
    await page.setContent(`<html lang="en"><title>t</title><main><h1 style="color: #ddd">pale</h1></main></html>`);
    expect((await axeViolations(page)).join("\n")).toContain("color-contrast");
  });
});
