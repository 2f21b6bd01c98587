import axe from "axe-core";
import type { Page } from "playwright-core";

/** What depends on colours, and so on light and dark. */
export const COLOUR_RULES = ["color-contrast", "link-in-text-block"];

/**
 * What axe-core finds wrong in a page, by all its rules or those named: its script is evaluated by the debugger, since the
 * page's own policy allows none.
 */
export async function axeViolations(page: Page, rules?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate("'axe' in globalThis"))) await page.evaluate(axe.source);
  const options = JSON.stringify({
    resultTypes: ["violations"],
    ...(rules ? { runOnly: { type: "rule", values: rules } } : {}),
  });
  const found = (await page.evaluate(`axe.run(${options})`)) as axe.AxeResults;
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 100)).join(" | ")}`);
}
