/** What checks that run inside a page use of it: the type check of tests knows no DOM. */
export const dom = globalThis as unknown as {
  readonly document: Element & {
    readonly body: Element;
    readonly documentElement: Element;
    activeElement: Element | null;
  };
  readonly innerWidth: number;
  readonly innerHeight: number;
  getComputedStyle(element: Element, pseudo?: string): Readonly<Record<string, string>>;
  addEventListener(kind: "focusin", listen: () => void): void;
};

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
}

export interface Node {
  readonly nodeType: number;
  readonly textContent: string | null;
  readonly parentElement: Element | null;
  readonly childNodes: Iterable<Node>;
}

export interface Element extends Node {
  readonly tagName: string;
  readonly id: string;
  readonly scrollWidth: number;
  readonly clientWidth: number;
  readonly children: ArrayLike<Element> & Iterable<Element>;
  closest(selector: string): Element | null;
  matches(selector: string): boolean;
  contains(other: Element): boolean;
  querySelector(selector: string): Element | null;
  querySelectorAll(selector: string): Iterable<Element>;
  getAttributeNames(): string[];
  getAttribute(name: string): string | null;
  setAttribute(name: string, value: string): void;
  getBoundingClientRect(): Box;
  checkVisibility(options: { visibilityProperty: boolean }): boolean;
}

export function all(selector: string, within: Element = dom.document): Element[] {
  return [...within.querySelectorAll(selector)];
}

/** Drawn, and not only there for those who hear the page. */
export function isSeen(element: Element): boolean {
  if (!element.checkVisibility({ visibilityProperty: true }) || element.closest(".unseen, .skip")) return false;
  const { width, height } = element.getBoundingClientRect();
  return width > 1 && height > 1;
}

/** An element as a person finds it again. */
export function told(element: Element): string {
  const name = element.tagName.toLowerCase() + (element.id ? `#${element.id}` : "");
  const kind = element.getAttribute("class");
  const { left, top, width, height } = element.getBoundingClientRect();
  const at = [left, top, width, height].map(Math.round);
  return `<${name}${kind ? ` class="${kind}"` : ""}> "${text(element).slice(0, 60)}" at ${at[0]},${at[1]}, ${at[2]} × ${at[3]} px`;
}

export function text(node: Node | null): string {
  return (node?.textContent ?? "").replace(/\s+/g, " ").trim();
}
