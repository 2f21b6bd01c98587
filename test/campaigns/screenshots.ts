import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { fillDemo } from "../../seed/fill-demo.ts";
import { ALL_PAGES, findKnown } from "../support/all-pages.ts";
import { openBrowser } from "../support/browser.ts";

/*
 * Every page of the demonstration, at three widths, light and dark, and a trial as it prints. For eyes: nothing is compared.
 * tsx test/campaigns/screenshots.ts [words of a page's name]
 */
const folder = join(import.meta.dirname, "../../screenshots");
const words = process.argv.slice(2).join(" ");

await mkdir(folder, { recursive: true });
const { target, open, complaints, stop } = await openBrowser();
const known = await findKnown(target.url, target.request, await fillDemo(target.request));
const page = await open();
for (const each of ALL_PAGES.filter(({ name }) => name.includes(words))) {
  const name = each.name.replaceAll(/[^a-z]+/g, "-");
  const status = await each.open(page, known);
  if (status !== each.status) console.log(`${each.name}: ${status} instead of ${each.status}`);
  for (const width of [360, 768, 1280]) {
    await page.setViewportSize({ width, height: 900 });
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await shoot(`${name}-${width}-${colorScheme}.png`, (path) =>
        page.screenshot({ path, fullPage: true, timeout: 60_000 }),
      );
    }
  }
  await page.emulateMedia({ colorScheme: "light" });
  if (each.name.includes("trial")) await shoot(`${name}.pdf`, (path) => page.pdf({ path, format: "A4" }));
}
for (const complaint of complaints()) console.log(complaint);
await stop();

async function shoot(name: string, to: (path: string) => Promise<unknown>): Promise<void> {
  const path = join(folder, name);
  await to(path);
  console.log(path);
}
