import { PUBLIC_URL } from "../public-url.ts";
import { all, type Element, told } from "./dom.ts";

/** Opens all that is folded, so that it is looked at as well. */
export function openDetails(): number {
  const closed = all("details:not([open])");
  for (const each of closed) each.setAttribute("open", "");
  return closed.length;
}

const LINK = /^(\/|#|\?|https?:\/\/|mailto:)/;

/** What markup of a stranger could have left: scripts, frames, pictures, handlers, addresses that run. */
export function unsafe(): string[] {
  const foreign = [
    ...all("iframe, object, embed, base, main style, main script, main link, main meta"),
    ...all("script").filter((each) => !isOwn(each, "src") && !isDataset(each)),
    ...all("link").filter((each) => !isOwn(each, "href") && !isPreview(each)),
    ...all("img").filter((each) => !(each.matches(".card") && CARD.test(each.getAttribute("src") ?? ""))),
    ...all("meta[http-equiv], meta[property='og:image'], meta[property='og:url']").filter((each) => !isPublic(each)),
  ];
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

/** The one picture that a page shows: that of a pinned result. */
const CARD = /^\/pinned\/[\w./-]+\/card\.png$/;

/** At an address of this very site. */
function isOwn(each: Element, name: "src" | "href"): boolean {
  return /^\/(?!\/)/.test(each.getAttribute(name) ?? "");
}

/** Data for machines, which nothing runs: JSON, without a letter that could end it. */
function isDataset(each: Element): boolean {
  const text = each.textContent ?? "";
  const isOne = each.getAttributeNames().join() === "type" && each.getAttribute("type") === "application/ld+json";
  return isOne && !text.includes("<") && isJson(text);
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** Where programs that embed a link ask about it. */
function isPreview(each: Element): boolean {
  const isOne = each.matches("link[rel=alternate][type='application/json+oembed']");
  return isOne && (each.getAttribute("href") ?? "").startsWith(`${PUBLIC_URL}/oembed?`);
}

/** What is told of this page to others, at the address where others find it. */
function isPublic(each: Element): boolean {
  return (each.getAttribute("content") ?? "").startsWith(`${PUBLIC_URL}/`);
}
