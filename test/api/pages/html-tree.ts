import { COPY_PATH } from "../../../api/pages/quote/copy-script.ts";

/** An element of a page as a test reads it. */
export interface Element {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly (Element | string)[];
}

type Wanted = (element: Element) => boolean;

/**
 * HTML as this service writes it, as a tree. Stricter than a browser: every element that is not void must be closed in its turn.
 * @throws Error where it is not
 */
export function parseHtml(html: string): Element {
  const root = { tag: "#root", attributes: {}, children: [] as (Element | string)[] };
  const open = [root];
  const token = /<!doctype html>|<(\/?)([a-z][a-z0-9]*)((?:\s+[\w:-]+(?:="[^"]*")?)*)\s*(\/?)>|([^<]+)/giy;
  while (token.lastIndex < html.length) {
    const at = token.lastIndex;
    const match = token.exec(html);
    if (!match) throw new Error(`no HTML: ${html.slice(at, at + 80)}`);
    const [, close, tag, attributes, selfClosed, text] = match;
    const top = open.at(-1)!;
    if (text !== undefined) top.children.push(plain(text));
    else if (tag === undefined) continue;
    else if (close) {
      if (open.pop()!.tag !== tag) throw new Error(`</${tag}> closes <${top.tag}>`);
    } else {
      const element = { tag, attributes: readAttributes(attributes!), children: [] };
      top.children.push(element);
      if (!VOID.has(tag) && !selfClosed) open.push(element);
    }
  }
  if (open.length > 1) throw new Error(`<${open.at(-1)!.tag}> is never closed`);
  return root;
}

/** All elements that are wanted, in the order of the page. */
export function all(within: Element, wanted: string | Wanted): Element[] {
  const is: Wanted = typeof wanted === "string" ? ({ tag }) => tag === wanted : wanted;
  return within.children.flatMap((child) =>
    typeof child === "string" ? [] : [...(is(child) ? [child] : []), ...all(child, is)],
  );
}

/** Scripts and pictures that the service does not send: what a stranger's markup would leave. */
export function strange(page: Element): Element[] {
  return all(page, "script")
    .filter(({ attributes: { src, type } }) => src !== COPY_PATH && type !== "application/ld+json")
    .concat(all(page, "img"));
}

/** The only element that is wanted. @throws Error where there is another number of them */
export function one(within: Element, wanted: string | Wanted): Element {
  const found = all(within, wanted);
  if (found.length !== 1) throw new Error(`${found.length} elements where one is wanted: ${String(wanted)}`);
  return found[0]!;
}

/** The words of an element, blanks run together. */
export function words(element: Element): string {
  const text = (each: Element | string): string => (typeof each === "string" ? each : each.children.map(text).join(""));
  return text(element)
    .replaceAll(/[ \n]+/g, " ")
    .trim();
}

export const hasClass = (name: string) => (element: Element) =>
  (element.attributes.class ?? "").split(" ").includes(name);

const VOID = new Set(["meta", "link", "input", "br", "hr", "img"]);

function readAttributes(text: string): Record<string, string> {
  return Object.fromEntries(
    [...text.matchAll(/([\w:-]+)(?:="([^"]*)")?/g)].map(([, name, value]) => [name!, plain(value ?? "")]),
  );
}

const ENTITIES: Record<string, string> = { lt: "<", gt: ">", amp: "&", quot: '"', "#39": "'" };

function plain(text: string): string {
  return text.replaceAll(/&(lt|gt|amp|quot|#39);/g, (_, name: string) => ENTITIES[name]!);
}
