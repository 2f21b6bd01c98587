import { all, type Box, dom, type Element, isSeen, told } from "./dom.ts";

/** Each side of a target, in CSS pixels (WCAG 2.2, 2.5.8). */
const SIDE = 24;

/**
 * Targets too small for a finger. As 2.5.8 allows: those in a sentence, and those alone in a circle of 24 px about their middle.
 * A box to tick is as large as the label it stands in.
 */
export function smallTargets(): string[] {
  const targets = all("a[href], button, input:not([type=hidden]), select, textarea, summary").filter(isSeen);
  const boxes = targets.map((each) => ({ each, box: boxOf(each) }));
  return boxes
    .filter(({ each, box }) => isSmall(box) && !isInSentence(each))
    .filter(({ each, box }) => boxes.some((other) => other.each !== each && isNear(box, other.box)))
    .map(({ each }) => `small target: ${told(each)}`);
}

function boxOf(element: Element): Box {
  const label = element.matches("input") ? element.closest("label") : null;
  return (label ?? element).getBoundingClientRect();
}

function isSmall({ width, height }: Box): boolean {
  return width < SIDE - 0.1 || height < SIDE - 0.1;
}

/** A link with words of its block beside it. */
function isInSentence(element: Element): boolean {
  if (element.tagName !== "A" || dom.getComputedStyle(element).display !== "inline") return false;
  let block = element.parentElement;
  while (block && dom.getComputedStyle(block).display!.startsWith("inline")) block = block.parentElement;
  return block !== null && wordsBeside(block) !== "";
}

/** Words of a block outside its links, but for stops and bars that only part them. */
function wordsBeside(block: Element): string {
  const words = (element: Element): string =>
    [...element.childNodes]
      .map((node) => {
        if (node.nodeType === 3) return node.textContent ?? "";
        const child = node as Element;
        return node.nodeType !== 1 || child.matches("a, button, summary") ? "" : words(child);
      })
      .join("");
  return words(block).replace(/[\s·|,;.]/g, "");
}

/** The circle about a small target's middle meets another target, or its circle where that is small as well. */
function isNear(box: Box, other: Box): boolean {
  const [x, y] = middle(box);
  if (isSmall(other)) {
    const [ox, oy] = middle(other);
    if (Math.hypot(x - ox, y - oy) < SIDE) return true;
  }
  const [dx, dy] = [gap(x, other.left, other.right), gap(y, other.top, other.bottom)];
  return Math.hypot(dx, dy) < SIDE / 2;
}

function middle({ left, right, top, bottom }: Box): [x: number, y: number] {
  return [(left + right) / 2, (top + bottom) / 2];
}

function gap(at: number, from: number, to: number): number {
  return Math.max(from - at, 0, at - to);
}
