import type { ReadingCode } from "../../../../analysis/reading/reading-error.ts";

/** What to do about a log that cannot be read. */
export const READING_REMEDIES: Record<ReadingCode, string> = {
  empty: "Export the log again and look into the file: it needs a row of names and rows of numbers.",
  binary: "Export as text (CSV): a spreadsheet’s or a database’s own file is not read.",
  "too-large": "Keep the columns that matter, crop the log, or average it to coarser samples.",
  "no-columns": "Save with a comma, a semicolon or a tab between cells.",
  "ragged-rows": "Give every column a name, and quote cells that hold the delimiter.",
  "no-time-column": "Name the column of times (time, t, date …), or say which it is in columns.",
  "constant-time": "Export times with seconds; a date alone does not do.",
  "garbled-time": "Keep one clock and one format for a whole file. A step at a change to summer time can be cut off.",
  "ambiguous-date": "Write dates as 2026-10-03, or give times as seconds from the start.",
  "no-channels": "Say in columns which column holds a concentration, with its unit and sizes.",
  "no-values": "Look for words or blanks in the column that was named.",
  "non-linear-index": "Export particle counts or mass. An index is bent, and a bent decay has another rate.",
  "unknown-unit": "Use a unit that the answer lists, such as 1/cm3, 1/L, ug/m3.",
  "unknown-column": "Spell the name as the file’s own header does.",
  "duplicate-column": "Give the columns different names.",
  "duplicate-id": "Give the channels different ids.",
  "reserved-name": "Call the channel something that is not the name of a size band.",
};
