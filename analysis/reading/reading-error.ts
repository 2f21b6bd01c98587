/** Why a log cannot be read: the closed set of refusals of analysis/reading/. */
export const READING_CODES = {
  empty: "the file holds no rows",
  binary: "this is not a text file",
  "too-large": "the log holds more values than can be taken",
  "no-columns": "no columns can be told apart: the delimiter must be a comma, a semicolon or a tab",
  "ragged-rows": "most rows have more cells than the header has names",
  "no-time-column": "no column holds the time",
  "constant-time": "all rows have the same time",
  "garbled-time": "the times cannot be read or run back and forth",
  "ambiguous-date": "the order of day and month cannot be told",
  "no-channels": "no column holds a concentration",
  "no-values": "a column holds no numbers",
  "non-linear-index": "an air quality index is no concentration: its decay has no rate",
  "unknown-unit": "the unit is not known",
  "unknown-column": "there is no such column",
  "duplicate-column": "several columns have this name",
  "duplicate-id": "two channels have the same id",
  "reserved-name": "names of size bands cannot be channel ids",
} as const;

export type ReadingCode = keyof typeof READING_CODES;

/** A typed refusal to read: which column and which line (from 1) of the file it is about, where that can be told. */
export class ReadingError extends Error {
  override readonly name = "ReadingError";
  readonly code: ReadingCode;
  readonly column: string | null;
  readonly line: number | null;

  constructor(code: ReadingCode, message: string = READING_CODES[code], at: { column?: string; line?: number } = {}) {
    super(message);
    this.code = code;
    this.column = at.column ?? null;
    this.line = at.line ?? null;
  }
}
