import type { Delimiter } from "./split-lines.ts";

/**
 * Rows of cells (RFC 4180): a cell that begins with a quote ends at the next one before a delimiter or a line end, blanks
 * between them forgiven, and two quotes in it are one. A quote elsewhere is a character like any other; one that is never
 * closed takes all that follows, as a broken file should not pass for a whole one.
 */
export function cutCells(text: string, delimiter: Delimiter): string[][] {
  if (!text.includes('"')) return text.split("\n").map((line) => line.split(delimiter));
  const rows: string[][] = [];
  let row: string[] = [];
  for (let at = 0; ; ) {
    const { cell, end } = text[at] === '"' ? quoted(text, at, delimiter) : plain(text, at, delimiter);
    row.push(cell);
    if (text[end] === delimiter) {
      at = end + 1;
      continue;
    }
    rows.push(row);
    row = [];
    if (end >= text.length) return rows;
    at = end + 1;
  }
}

interface Cut {
  readonly cell: string;
  /** Where the delimiter, the line end or the end of the text stands. */
  readonly end: number;
}

function plain(text: string, from: number, delimiter: Delimiter): Cut {
  let end = from; // step by step: to look for a delimiter that no longer comes would read the whole text for each cell
  while (end < text.length && text[end] !== delimiter && text[end] !== "\n") end++;
  return { cell: text.slice(from, end), end };
}

function quoted(text: string, from: number, delimiter: Delimiter): Cut {
  const unquote = (to: number) => text.slice(from + 1, to).replaceAll('""', '"');
  for (let at = from + 1; ; ) {
    const quote = text.indexOf('"', at);
    if (quote < 0) return { cell: text.slice(from + 1), end: text.length };
    if (text[quote + 1] === '"') {
      at = quote + 2;
      continue;
    }
    let end = quote + 1;
    while (text[end] !== delimiter && BLANK.test(text[end] ?? "")) end++;
    if (end >= text.length || text[end] === delimiter || text[end] === "\n") return { cell: unquote(quote), end };
    at = quote + 1;
  }
}

const BLANK = /[^\S\n]/;
