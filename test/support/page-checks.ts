import { join } from "node:path";
import { build } from "esbuild";
import type { Page } from "playwright-core";
import type * as checks from "./in-page/checks.ts";

type Check = keyof typeof checks;

const bundle = build({
  entryPoints: [join(import.meta.dirname, "in-page/checks.ts")],
  bundle: true,
  format: "iife",
  globalName: "motefallChecks",
  target: "es2022",
  write: false,
}).then(({ outputFiles }) => `${outputFiles[0]!.text}; globalThis.motefallChecks ??= motefallChecks;`);

/** Runs a check inside a page, once for each time it is asked; the page's own policy does not bind the debugger. */
export async function checkPage<C extends Check>(page: Page, check: C): Promise<ReturnType<(typeof checks)[C]>> {
  if (!(await page.evaluate("'motefallChecks' in globalThis"))) await page.evaluate(await bundle);
  return (await page.evaluate(`motefallChecks.${check}()`)) as ReturnType<(typeof checks)[C]>;
}
