import type { Ctx } from "../environment.ts";

/**
 * Whether another site made the browser send this. `Origin` would not tell: pages here send no referrer, for which browsers
 * write `Origin: null` in their own forms too. What is no browser, or an old one, sends no such header and is let in.
 */
export function isFromElsewhere(c: Ctx): boolean {
  const site = c.req.header("Sec-Fetch-Site");
  return site === "cross-site" || site === "same-site";
}
