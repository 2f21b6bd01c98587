/*
 * What the build of the browser's script puts in place of hono/jsx/jsx-runtime (package.json, `bundle`): the same components
 * write the same HTML, in a tenth of the bytes. It knows no promises, contexts and hooks, which no component here has.
 */

type Props = Readonly<Record<string, unknown>>;
type Component = (props: Props) => unknown;

/** HTML, told from words that are still to be escaped. */
class Html {
  readonly #text: string;
  constructor(text: string) {
    this.#text = text;
  }
  toString(): string {
    return this.#text;
  }
}

/** An element, or what a component makes of its props. */
export function jsx(tag: string | Component, { children, ...attributes }: Props): Html {
  if (typeof tag === "function") {
    return new Html(written(tag(children === undefined ? attributes : { ...attributes, children })));
  }
  const open = `<${tag}${Object.entries(attributes).map(attribute).join("")}`;
  const inside = written(children);
  return new Html(VOID.test(tag) && inside === "" ? `${open}/>` : `${open}>${inside}</${tag}>`);
}

export const jsxs = jsx;

/** Children without an element about them. */
export function Fragment({ children }: Props): Html {
  return new Html(written(children));
}

const VOID = /^(?:area|base|br|col|embed|hr|img|input|link|meta|source|track|wbr)$/;
/** Attributes that are there or not; any other says true or false. */
const THERE = /^(?:autofocus|checked|disabled|hidden|multiple|novalidate|open|readonly|required|reversed|selected)$/;

function attribute([name, value]: [string, unknown]): string {
  if (value === null || value === undefined) return "";
  if (typeof value === "boolean" && THERE.test(name)) return value ? ` ${name}=""` : "";
  return ` ${name}="${escaped(String(value))}"`;
}

function written(child: unknown): string {
  if (Array.isArray(child)) return child.map(written).join("");
  if (child === null || child === undefined || typeof child === "boolean") return "";
  return child instanceof Html ? child.toString() : escaped(String(child));
}

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => SIGNS[sign]!);
}

const SIGNS: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };
