import { cutCells } from "./cut-cells.ts";
import { type DecimalMark, findDecimalMark } from "./number-text.ts";
import { ReadingError } from "./reading-error.ts";
import { findDelimiter, splitLines } from "./split-lines.ts";
import { findHeader, namesInComment } from "./table-header.ts";

/** Cuts a log into named columns of text. @throws ReadingError "empty", "no-columns", "too-large", "ragged-rows" */
export function readTable(text: string): Table {
  const split = splitLines(text);
  if (split.lines.length === 0) throw new ReadingError("empty");
  const delimiter = findDelimiter(split.lines);
  if (delimiter === null) throw new ReadingError("no-columns");
  const parsed = cutCells(split.lines.join("\n"), delimiter);
  const bulk = parsed.slice(Math.min(20, Math.floor(parsed.length / 2)), SAMPLE);
  const width = commonWidth(bulk);
  if (width > MAX_COLUMNS)
    throw new ReadingError("too-large", `a log may have ${MAX_COLUMNS} columns, this has ${width}`);
  const mark = findDecimalMark(bulk);
  const header = findHeader(parsed, width, mark);
  const named = header.names ?? namesInComment(split.lastComment, delimiter, width);
  const names =
    named?.map((name) => name.slice(0, LONGEST_NAME)) ?? Array.from({ length: width }, (_, i) => `column ${i + 1}`);
  const regular = regularRows(parsed, header.rowsAbove, names.length, text.endsWith("\n"));
  if (regular.rows.length === 0) throw new ReadingError("empty", "no row of numbers follows the header");
  const exact = parsed.length === split.lines.length; // a line end inside quotes makes the count uncertain
  return {
    names,
    hasHeader: named !== null,
    rows: regular.rows,
    lineOf: (row) => (exact ? (split.numbers[regular.at[row] ?? -1] ?? null) : null),
    mark,
    dropped: dropsOf({
      "blank-line": split.blank,
      comment: split.comments,
      "title-line": Math.max(0, header.rowsAbove - (header.names ? 1 : 0)),
      "ragged-row": regular.ragged,
      "cut-off-row": regular.cutOff,
    }),
  };
}

const MAX_COLUMNS = 1000; // more is no log of a particle counter
const LONGEST_NAME = 200; // what is longer is no name
const SAMPLE = 400; // rows that show how numbers are written

export interface Table {
  /** Names of the columns, units and all; "column 1" … where the file has no header. */
  readonly names: readonly string[];
  readonly hasHeader: boolean;
  readonly rows: readonly (readonly string[])[];
  /** Line of a row in the file, from 1; null where it cannot be told. */
  readonly lineOf: (row: number) => number | null;
  readonly mark: DecimalMark;
  readonly dropped: readonly Dropped[];
}

export interface Dropped {
  readonly reason: DropReason;
  readonly count: number;
}

/** Rows that are not in the series, and why. Blank and comment lines are told too. */
export type DropReason = "blank-line" | "comment" | "title-line" | "ragged-row" | "cut-off-row" | "unreadable-time";

function commonWidth(rows: readonly (readonly string[])[]): number {
  const counts = new Map<number, number>();
  for (const row of rows) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
  return [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best), [0, 0])[0];
}

/**
 * Rows below the header that fit it. A row with more cells than names has slipped and is left out; a shorter one lacks its
 * last readings; a short last row without a line end was cut off in mid-number.
 */
function regularRows(parsed: readonly string[][], above: number, width: number, ended: boolean) {
  const rows: string[][] = [];
  const at: number[] = [];
  let ragged = 0;
  let cutOff = 0;
  for (let i = above; i < parsed.length; i++) {
    const row = parsed[i]!;
    if (row.length > width && row.slice(width).some((cell) => cell.trim() !== "")) ragged++;
    else if (row.length < width && i === parsed.length - 1 && !ended) cutOff++;
    else {
      rows.push(row);
      at.push(i);
    }
  }
  if (ragged > rows.length) throw new ReadingError("ragged-rows");
  return { rows, at, ragged, cutOff };
}

export function dropsOf(counts: Partial<Record<DropReason, number>>): Dropped[] {
  return (Object.entries(counts) as [DropReason, number][])
    .filter(([, count]) => count > 0)
    .map(([reason, count]) => ({ reason, count }));
}
