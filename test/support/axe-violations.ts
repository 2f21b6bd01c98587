import axe from "axe-core";
import type { Page } from "playwright-core";

/** What axe-core finds wrong in a page: its script is evaluated by the debugger, since the page's own policy allows none. */
export async function axeViolations(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const found = (await page.evaluate("axe.run()")) as axe.AxeResults;
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 100)).join(" | ")}`);
}
