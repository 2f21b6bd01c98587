import type { DecimalMark } from "./number-text.ts";
import { parseNumber } from "./number-text.ts";
import type { Delimiter } from "./split-lines.ts";
import { readsAsTime } from "./time-text.ts";

type Row = readonly string[];

export interface Header {
  /** One name a column, a row of units below the names joined to them; null where the file has no header. */
  readonly names: readonly string[] | null;
  /** Number of rows above the data: titles, names, units. */
  readonly rowsAbove: number;
}

/**
 * Finds where the data begin and which row names the columns. A column's nature shows in the bulk of the file; the header is
 * the last row above the data that holds mostly words.
 */
export function findHeader(rows: readonly Row[], width: number, mark: DecimalMark): Header {
  const first = firstDataRow(rows, width, mark);
  for (let i = first - 1; i >= 0; i--) {
    const row = rows[i]!;
    if (!namesColumns(row, width, mark)) continue;
    const above = rows[i - 1];
    if (above && holdsUnits(row) && namesColumns(above, width, mark)) {
      return { names: above.map((name, column) => joined(name, row[column] ?? "")), rowsAbove: i + 1 };
    }
    return { names: row.map((name) => name.trim()), rowsAbove: i + 1 };
  }
  return { names: null, rowsAbove: first };
}

/** A header in the last comment above the data ("# time,pm2.5") has as many cells as the data have columns. */
export function namesInComment(comment: string | null, delimiter: Delimiter, width: number): string[] | null {
  const names = comment?.split(delimiter).map((name) => name.trim().replace(/^"(.*)"$/, "$1"));
  return names && names.length === width && names.every((name) => name !== "") ? names : null;
}

function joined(name: string, unit: string): string {
  return unit.trim() === "" ? name.trim() : `${name.trim()} [${unit.trim().replace(/^[([](.*)[)\]]$/, "$1")}]`;
}

/** Words for a reading that is not there. */
export function isMissing(cell: string): boolean {
  return cell.length === 0 || (cell.length < 16 && MISSING.test(cell.trim())) || cell.trim() === "";
}

const MISSING = /^(?:|-+|nan|n\/?a|null|none|nil|undefined|[?]+|#n\/a|inf(?:inity)?|err(?:or)?|ovr|overflow)$/i;

function isValue(cell: string, mark: DecimalMark): boolean {
  return !Number.isNaN(parseNumber(cell, mark)) || readsAsTime(cell);
}

const SAMPLE = 200; // rows from the middle of the file, past any titles

function firstDataRow(rows: readonly Row[], width: number, mark: DecimalMark): number {
  const from = Math.min(20, Math.floor(rows.length / 2));
  const bulk = rows.slice(from, from + SAMPLE).filter((row) => row.length === width);
  const columns = Array.from({ length: width }, (_, column) => column).filter((column) => {
    const cells = bulk.map((row) => row[column]!).filter((cell) => !isMissing(cell));
    return cells.length > 0 && cells.filter((cell) => isValue(cell, mark)).length >= 0.6 * cells.length;
  });
  if (columns.length === 0) return Math.min(1, rows.length);
  const isData = (row: Row) =>
    columns.every((column) => isMissing(row[column] ?? "") || isValue(row[column]!, mark)) &&
    columns.filter((column) => isValue(row[column] ?? "", mark)).length >= Math.max(1, columns.length / 2);
  const first = rows.findIndex(isData);
  return first < 0 ? Math.min(1, rows.length) : first;
}

function namesColumns(row: Row, width: number, mark: DecimalMark): boolean {
  const filled = row.filter((cell) => cell.trim() !== "");
  const words = filled.filter((cell) => !isValue(cell, mark) && !isMissing(cell));
  const beginsAsNames = !isValue(row[0] ?? "", mark) || words.length >= filled.length / 2;
  return filled.length >= Math.max(2, width / 2) && words.length >= 1 && beginsAsNames;
}

function holdsUnits(row: Row): boolean {
  return row.every((cell) => cell.length < 40 && UNIT.test(cell.trim()));
}

const UNIT =
  /^[([]?(?:|-|ms|s|secs?|seconds?|min|minutes?|h|hours?|hh:mm:ss|[µμun]?m|%|°?[CF]|K|[hk]?Pa|mbar|pp[mb]|[^\s()[\]]*\/[^\s()[\]]*|[µμumn]g\S*)[)\]]?$/i;
