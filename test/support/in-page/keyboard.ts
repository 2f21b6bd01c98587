import { all, dom, type Element, isSeen, told } from "./dom.ts";

interface Stop {
  readonly element: Element;
  readonly outline: boolean;
  readonly inView: boolean;
}

const stops: Stop[] = [];

/** Writes down from now on what has the focus, and whether it shows. */
export function watchFocus(): number {
  dom.addEventListener("focusin", () => {
    const element = dom.document.activeElement;
    if (!element || element === stops.at(-1)?.element) return;
    const { outlineStyle, outlineWidth } = dom.getComputedStyle(element);
    const { bottom, top, right, left } = element.getBoundingClientRect();
    const inView = bottom > 0 && top < dom.innerHeight && right > 0 && left < dom.innerWidth;
    stops.push({ element, outline: outlineStyle !== "none" && Number.parseFloat(outlineWidth ?? "0") >= 1, inView });
  });
  return reachable().length;
}

/** Everything a keyboard should reach, in reading order: of buttons to choose among, one a group. */
function reachable(): Element[] {
  const groups = new Set<string>();
  return all("a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex='0']").filter((each) => {
    if (each.matches(":disabled, [tabindex='-1']") || !(each.matches(".skip") || isSeen(each))) return false;
    if (!each.matches("input[type=radio]")) return true;
    const group = each.getAttribute("name") ?? "";
    const chosen = all("input[type=radio]:checked").some((other) => other.getAttribute("name") === group);
    if (chosen) return each.matches(":checked");
    return !groups.has(group) && groups.add(group).has(group);
  });
}

/** What the Tab key missed, took out of order or gave no outline. */
export function focusFaults(): string[] {
  const wanted = reachable();
  const visited = stops.map(({ element }) => element);
  const missed = wanted.filter((each) => !visited.includes(each)).map((each) => `not reached: ${told(each)}`);
  const order = wanted.filter((each) => visited.includes(each));
  const first = order.findIndex((each, i) => i > 0 && visited.indexOf(each) < visited.indexOf(order[i - 1]!));
  const disordered = first < 0 ? [] : [`out of order: ${told(order[first]!)}`];
  const unseen = stops.filter(({ outline }) => !outline).map(({ element }) => `no outline: ${told(element)}`);
  const hidden = stops.filter(({ inView }) => !inView).map(({ element }) => `focused out of view: ${told(element)}`);
  const forced = all("[tabindex]")
    .filter((each) => Number(each.getAttribute("tabindex")) > 0)
    .map((each) => `a place in the order of its own: ${told(each)}`);
  return [...missed, ...disordered, ...unseen, ...hidden, ...forced];
}
