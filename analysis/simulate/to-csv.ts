import type { Series } from "../trial.ts";

/** How a logger writes its file. */
export interface Dress {
  readonly delimiter: "," | ";" | "\t";
  readonly decimal: "." | ",";
  readonly lineEnd: "\n" | "\r\n";
  /** Header of the time column. */
  readonly time: string;
  /** Unix time of the first row in ms: rows are then stamped in UTC. Null: seconds after the first row. */
  readonly startMs: number | null;
  readonly byteOrderMark: boolean;
  readonly newestFirst: boolean;
  /** Lines above the header. */
  readonly title: readonly string[];
}

const COMMA: Dress = {
  delimiter: ",",
  decimal: ".",
  lineEnd: "\n",
  time: "time",
  startMs: null,
  byteOrderMark: false,
  newestFirst: false,
  title: [],
};

/** Dresses that loggers wear: a plain one, a spreadsheet's in a land of decimal commas, stamped rows. */
export const DRESSES = {
  comma: COMMA,
  semicolon: { ...COMMA, delimiter: ";", decimal: ",", lineEnd: "\r\n", byteOrderMark: true, time: "time_s" },
  stamped: { ...COMMA, time: "timestamp", startMs: Date.UTC(2026, 9, 3, 16, 20), title: ["# decay test"] },
} as const satisfies Record<string, Dress>;

/** A series as the text of a CSV file: channel ids are the headers, missing values are empty cells. Times to 1 ms. */
export function toCsv(series: Series, dress: Dress = DRESSES.comma): string {
  const { delimiter, decimal, lineEnd, startMs } = dress;
  const number = (value: number) => (Number.isNaN(value) ? "" : String(value).replace(".", decimal));
  const time = (tS: number) =>
    startMs === null ? number(Number(tS.toFixed(3))) : new Date(startMs + Math.round(1000 * tS)).toISOString();
  const header = [dress.time, ...series.channels.map((channel) => quoted(channel.id, delimiter))].join(delimiter);
  const rows = Array.from(series.tS, (tS, row) =>
    [time(tS), ...series.channels.map((channel) => number(channel.values[row]!))].join(delimiter),
  );
  const lines = [...dress.title, header, ...(dress.newestFirst ? rows.reverse() : rows)];
  return (dress.byteOrderMark ? "\uFEFF" : "") + lines.map((line) => line + lineEnd).join("");
}

function quoted(name: string, delimiter: string): string {
  return name.includes(delimiter) || name.includes('"') ? `"${name.replaceAll('"', '""')}"` : name;
}
