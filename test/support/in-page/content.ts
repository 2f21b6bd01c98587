import { all, told } from "./dom.ts";

/** Opens all that is folded, so that it is looked at as well. */
export function openDetails(): number {
  const closed = all("details:not([open])");
  for (const each of closed) each.setAttribute("open", "");
  return closed.length;
}

const LINK = /^(\/|#|\?|https?:\/\/|mailto:)/;

/** What markup of a stranger could have left: scripts, frames, pictures, handlers, addresses that run. */
export function unsafe(): string[] {
  const foreign = all(
    "script:not([src^='/']), iframe, object, embed, base, link:not([href^='/']), main img, main style",
  );
  const handled = all("*").filter((each) => each.getAttributeNames().some((name) => name.startsWith("on")));
  const led = all("[href], [src], [action], [formaction]").filter((each) =>
    ["href", "src", "action", "formaction"].some((name) => {
      const to = each.getAttribute(name);
      return to !== null && !LINK.test(to);
    }),
  );
  const styled = all("[style]");
  return [...foreign, ...handled, ...led, ...styled].map((each) => `not from this page: ${told(each)}`);
}
