import { all, type Box, dom, type Element, isSeen, told } from "./dom.ts";

/** What makes a page scroll sideways, or is cut off at its edge. Tables in `.scroll` and `pre` scroll by themselves. */
export function sideways(): string[] {
  const { scrollWidth, clientWidth } = dom.document.documentElement;
  const out = all("body *")
    .filter((each) => !each.closest(".scroll *, pre *, svg *") && isSeen(each))
    .filter((each) => {
      const { left, right } = each.getBoundingClientRect();
      return left < -0.5 || right > clientWidth + 0.5;
    })
    .map((each) => `beyond the edge: ${told(each)}`);
  return scrollWidth > clientWidth ? [`the page is ${scrollWidth} px wide in ${clientWidth} px`, ...out] : out;
}

/** Words that do not fit the box that clips them. */
export function cutOff(): string[] {
  return all("main *")
    .filter((each) => isSeen(each) && !each.closest("svg, .scroll, pre") && !each.matches("input, select, textarea"))
    .filter((each) => dom.getComputedStyle(each).overflowX === "hidden" && each.scrollWidth > each.clientWidth + 1)
    .map((each) => `cut off: ${told(each)}`);
}

/** Words of a chart that leave its drawing or lie over other words of it. */
export function crowdedCharts(): string[] {
  return all("main svg")
    .filter(isSeen)
    .flatMap((svg) => {
      const isClipped = dom.getComputedStyle(svg).overflowX !== "visible";
      const frame = (isClipped ? svg : dom.document.documentElement).getBoundingClientRect();
      const words = all("text", svg).filter((each) => isSeen(each) && (each.textContent ?? "").trim() !== "");
      const boxes = words.map((each) => ({ each, box: each.getBoundingClientRect() }));
      const outside = boxes
        .filter(({ box }) => !holds(frame, box))
        .map(({ each }) => `outside its chart: ${told(each)}`);
      const over = boxes.flatMap(({ each, box }, i) =>
        boxes
          .slice(i + 1)
          .filter((other) => overlap(box, other.box))
          .map((other) => `over each other: ${told(each)} and ${told(other.each)}`),
      );
      return [...outside, ...over];
    });
}

function holds(frame: Box, box: Box): boolean {
  const slack = 1.5;
  return (
    box.left >= frame.left - slack &&
    box.right <= frame.right + slack &&
    box.top >= frame.top - slack &&
    box.bottom <= frame.bottom + slack
  );
}

/** Boxes of words are higher than their letters: they may touch by a third. */
function overlap(a: Box, b: Box): boolean {
  const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return across > 1 && down > Math.min(a.height, b.height) / 3;
}

/** Letters as drawn are never smaller; a chart of 330 px shrinks a little at 320. */
const SMALLEST_PX = 11;

/** Letters too small to read. */
export function tinyWords(): string[] {
  return all("main *")
    .filter((each) =>
      [...each.childNodes].some((node) => node.nodeType === 3 && (node.textContent ?? "").trim() !== ""),
    )
    .filter((each) => isSeen(each) && each.tagName !== "OPTION" && sizePx(each) < SMALLEST_PX)
    .map((each) => `${sizePx(each).toFixed(1)} px letters: ${told(each)}`);
}

function sizePx(each: Element): number {
  const svg = each.closest("svg");
  const units = svg
    ?.getAttribute("viewBox")
    ?.split(/[\s,]+/)
    .map(Number)[2];
  const scale = svg && units ? svg.getBoundingClientRect().width / units : 1;
  return Number.parseFloat(dom.getComputedStyle(each).fontSize ?? "16") * scale;
}
