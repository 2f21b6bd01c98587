export type Delimiter = "," | ";" | "\t";

export interface SplitLines {
  /** Lines that are neither blank nor a comment, without the comments' marks. */
  readonly lines: readonly string[];
  /** Number of each line in the file, from 1. */
  readonly numbers: readonly number[];
  /** The last comment before the first line that is none: some programs write the header there. */
  readonly lastComment: string | null;
  readonly blank: number;
  readonly comments: number;
}

/** Sets aside blank lines and comment lines (#, //, %; a lone "#" before a delimiter is a column's name). */
export function splitLines(text: string): SplitLines {
  const lines: string[] = [];
  const numbers: number[] = [];
  let lastComment: string | null = null;
  let blank = 0;
  let comments = 0;
  text.split("\n").forEach((line, i, all) => {
    if (BLANK.test(line)) {
      if (i < all.length - 1) blank++; // the last line end begins no row
    } else if (COMMENT.test(line)) {
      comments++;
      if (lines.length === 0) lastComment = line.replace(COMMENT, "");
    } else {
      lines.push(line);
      numbers.push(i + 1);
    }
  });
  return { lines, numbers, lastComment, blank, comments };
}

const BLANK = /^[\s,;"]*$/;
const COMMENT = /^\s*"?(?:#(?!"?\s*[,;\t])|\/\/|%(?!"?\s*[,;\t]))+/;

/**
 * The delimiter that cuts most lines into the same number (two or more) of cells. Tab goes before semicolon before comma:
 * in a file with decimal commas commas are as regular as semicolons.
 */
export function findDelimiter(lines: readonly string[]): Delimiter | null {
  const sample = lines.slice(Math.min(20, Math.floor(lines.length / 2)), 220);
  for (const delimiter of ["\t", ";", ","] as const) {
    const counts = new Map<number, number>();
    for (const line of sample) {
      const cells = countCells(line, delimiter);
      counts.set(cells, (counts.get(cells) ?? 0) + 1);
    }
    const [cells, count] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? [0, 0];
    if (cells >= 2 && count >= 0.6 * sample.length) return delimiter;
  }
  return null;
}

function countCells(line: string, delimiter: Delimiter): number {
  if (!line.includes('"')) return line.split(delimiter).length;
  let quoted = false;
  let cells = 1;
  for (const char of line) {
    if (char === '"') quoted = !quoted;
    else if (char === delimiter && !quoted) cells++;
  }
  return cells;
}
