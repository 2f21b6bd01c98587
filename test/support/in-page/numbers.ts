import { all, type Element, isSeen, type Node, text, told } from "./dom.ts";

const NUMBER = "[−-]?\\d[\\d\\u00a0\\u202f ]*(?:\\.\\d+)?";
const UNIT =
  /m³\/h|cfm|dB\(A\)|\bdB\b|µg\/m³|per cm³|per hour|per (?:minute|day|year)|\ba year\b|\bm³|\bm²|\bft[³²]?\b|µm|\bmin(?:utes?)?\b|\bhours?\b|\bkWh\b|\b[hmsW]\b|%|°[CF]|1\/h|\bL\/min\b|µs|\bm\/s\b|\b[A-Z]{3}\b|\btimes\b|\bratio\b|\bshare\b|unit not stated/;
const INTERVAL = new RegExp(
  `^${NUMBER} ± ${NUMBER}|^${NUMBER} \\(${NUMBER} to ${NUMBER}\\)|^${NUMBER} to ${NUMBER}|^(?:under|over) ${NUMBER}`,
);
const MONEY = new RegExp(`^${NUMBER} [A-Z]{3}\\b`);

/** Figures that stand without a unit or an interval, or whose digits do not match. */
export function quantityFaults(): string[] {
  return [
    ...all(".q").flatMap((each) => {
      const words = text(each);
      if (MONEY.test(words)) return [];
      const faults = INTERVAL.test(words) ? [] : [`no interval: ${told(each)}`];
      return UNIT.test([words, ...headsOf(each)].join(" ")) ? faults : [...faults, `no unit: ${told(each)}`];
    }),
    ...digitFaults(),
  ];
}

/** Words over and beside a figure that may hold its unit: its column's head, its row's, its term, its table's caption. */
function headsOf(figure: Element): string[] {
  const cell = figure.closest("td, th");
  const table = figure.closest("table");
  if (!cell || !table) {
    const term = figure.closest("dd")?.parentElement;
    return term ? termsOf(figure.closest("dd")!) : [];
  }
  const row = cell.closest("tr")!;
  const place = [...row.children].indexOf(cell);
  const column = table.querySelector(`thead tr:last-child > :nth-child(${place + 1})`);
  return [
    cell.getAttribute("data-head") ?? "",
    text(column),
    text(row.querySelector("th")),
    text(table.querySelector("caption")),
  ];
}

function termsOf(definition: Element): string[] {
  const siblings = [...(definition.parentElement?.children ?? [])];
  const before = siblings.slice(0, siblings.indexOf(definition)).filter(({ tagName }) => tagName === "DT");
  return before.length > 0 ? [text(before.at(-1)!)] : [];
}

/** Every "a ± b" of the page: b to two significant digits, a to the same place. */
function digitFaults(): string[] {
  return textNodes(all("body")[0]!).flatMap((node) => {
    const words = (node.textContent ?? "").replace(/[\u00a0\u202f](?=\d{3})/g, "");
    return [...words.matchAll(/([−-]?\d+(?:\.\d+)?) ± (\d+(?:\.\d+)?)/g)]
      .filter(([, value, expanded]) => !twoDigits(expanded!) || !samePlace(value!, expanded!))
      .map(([whole]) => `digits: ${whole}`);
  });
}

function textNodes(of: Node): Node[] {
  return [...of.childNodes].flatMap((node) => (node.nodeType === 3 ? [node] : textNodes(node)));
}

function twoDigits(expanded: string): boolean {
  const digits = expanded.replace(".", "").replace(/^0+/, "");
  return digits.length === 2 || (digits.length > 2 && !expanded.includes(".") && /^\d\d0+$/.test(digits));
}

function samePlace(value: string, expanded: string): boolean {
  const decimals = (figure: string) => figure.split(".")[1]?.length ?? 0;
  if (decimals(value) !== decimals(expanded)) return false;
  const zeros = Math.max(0, expanded.length - 2);
  return expanded.includes(".") || zeros === 0 || value.endsWith("0".repeat(zeros)) || value === "0";
}

const MEASURED = /\b(CADR|clean air|noise|sound|level|power|loss|decay|half-life|per hour|k_|difference|prediction)\b/i;
const NOT_MEASURED = /\b(rank|trials?|rooms?|tests?|share|when|date|probability|units|minutes)\b/i;

/** Digits in a cell of measured things that no figure holds and no reason excuses. */
export function looseNumbers(): string[] {
  return all("main td")
    .filter((cell) => isSeen(cell) && isMeasured(cell) && /\d/.test(looseText(cell)))
    .map((cell) => `not shown as a quantity: ${told(cell)}`);
}

function isMeasured(cell: Element): boolean {
  const row = cell.closest("tr")!;
  const place = [...row.children].indexOf(cell);
  const head =
    cell.getAttribute("data-head") ??
    text(cell.closest("table")!.querySelector(`thead tr:last-child > :nth-child(${place + 1})`));
  return MEASURED.test(head) && !NOT_MEASURED.test(head);
}

/** A cell's words outside its figures, reasons, names, links and drawings. */
function looseText(cell: Element): string {
  return [...cell.childNodes]
    .map((node) => {
      if (node.nodeType === 3) return node.textContent ?? "";
      const child = node as Element;
      if (node.nodeType !== 1 || child.matches(".q, .missing, bdi, a, svg, small, input, label, time")) return "";
      return looseText(child);
    })
    .join("");
}

const FIGURE_IN_WORDS = /\d\s(?:m³\/h|cfm|dB\(A\)|per hour|µg\/m³|per cm³|W\b)/;
const WITH_INTERVAL = new RegExp(`(?:${NUMBER} )?± ${NUMBER} \\S+`, "g");
const REASON = /\b(?:assumed|stated|standard uncertainty)\b/i;

/** Figures with units that stand in words, outside what shows their interval, and with no word on why they have none. */
export function figuresInWords(): string[] {
  return all("main :is(p, dd, td)")
    .filter((each) => isSeen(each) && !each.matches(".error, .hint, form *"))
    .map((each) => ({ each, words: looseText(each).replace(WITH_INTERVAL, "") }))
    .filter(({ words }) => FIGURE_IN_WORDS.test(words) && !REASON.test(words))
    .map(({ each }) => `a figure in words: ${told(each)}`);
}
