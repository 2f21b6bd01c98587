import type { ColumnMeaning } from "./column-meaning.ts";
import type { TimeStated } from "./columns-stated.ts";
import { findColumn } from "./find-column.ts";
import { timeUnitOf } from "./header-text.ts";
import { parseNumber } from "./number-text.ts";
import type { Table } from "./read-table.ts";
import { ReadingError } from "./reading-error.ts";
import { isMissing } from "./table-header.ts";
import { clockSeconds, type DayMonthOrder, isDateAlone, stampMs } from "./time-text.ts";
import { type RunTimes, type TimeUnit, timeToSeconds } from "./time-to-seconds.ts";

export interface TimeColumn {
  /** One column, or two: a date and a time of day. */
  readonly columns: readonly number[];
  readonly times: RunTimes;
  readonly guessed: boolean;
  readonly why: string;
}

/** Finds and reads the column of times. @throws ReadingError "no-time-column" and all of `timeToSeconds` */
export function readTimeColumn(
  table: Table,
  meanings: readonly ColumnMeaning[],
  stated: TimeStated | undefined,
): TimeColumn {
  if (stated) {
    const column = findColumn(table.names, stated.column);
    return readAs(table, [column], meanings[column]!, stated);
  }
  const named = meanings
    .map((meaning, column) => ({ meaning, column, content: contentOf(table, column) }))
    .filter((candidate) => candidate.meaning.role === "time" && candidate.content !== "empty")
    .sort((a, b) => rankOf(a.meaning) - rankOf(b.meaning));
  const date = named.find(({ content }) => content === "date");
  const clock = named.find(({ content }) => content === "clock");
  if (date && clock) return readAs(table, [date.column, clock.column], date.meaning);
  const best =
    named.find(({ content, column }) => content !== "words" && content !== "date" && varies(table, column)) ?? named[0];
  if (best) return readAs(table, [best.column], best.meaning);
  const column = table.names.findIndex((_, i) => ["stamp", "clock"].includes(contentOf(table, i)));
  if (column >= 0) return readAs(table, [column], { role: "unknown", why: "it holds times" });
  if (!table.hasHeader && contentOf(table, 0) === "number") {
    return readAs(table, [0], {
      role: "unknown",
      why: "no header: the first column, in seconds unless it holds Unix ms",
    });
  }
  throw new ReadingError("no-time-column", `none of these is a time: ${table.names.join(", ").slice(0, 300)}`);
}

function rankOf(meaning: ColumnMeaning): number {
  return meaning.role === "time" ? meaning.rank : Number.POSITIVE_INFINITY;
}

type Content = "number" | "stamp" | "date" | "clock" | "words" | "empty";

const SAMPLE = 60; // cells that show what a column holds

function contentOf(table: Table, column: number): Content {
  const cells = sampleOf(table, column);
  if (cells.length === 0) return "empty";
  const mostly = (test: (cell: string) => boolean) => cells.filter(test).length > cells.length / 2;
  if (mostly((cell) => !Number.isNaN(parseNumber(cell, table.mark)))) return "number";
  if (mostly((cell) => !Number.isNaN(clockSeconds(cell)))) return "clock";
  if (mostly(isDateAlone)) return "date";
  return mostly((cell) => !(Number.isNaN(stampMs(cell, "dmy")) && Number.isNaN(stampMs(cell, "mdy"))))
    ? "stamp"
    : "words";
}

function sampleOf(table: Table, column: number): string[] {
  const step = Math.max(1, Math.floor(table.rows.length / SAMPLE));
  return table.rows.flatMap((row, i) => (i % step === 0 && !isMissing(row[column] ?? "") ? [row[column]!] : []));
}

function varies(table: Table, column: number): boolean {
  return new Set(sampleOf(table, column)).size > 1;
}

function readAs(table: Table, columns: number[], meaning: ColumnMeaning, stated?: TimeStated): TimeColumn {
  const column = columns[0]!;
  const name = table.names[column]!;
  const unit = unitOf(table, columns, meaning, stated);
  const numeric = unit !== "datetime" && unit !== "clock";
  const values = table.rows.map((row) =>
    numeric ? parseNumber(row[column] ?? "", table.mark) : columns.map((c) => (row[c] ?? "").trim()).join(" "),
  );
  const minutesFirst = meaning.role === "time" && meaning.minutesFirst;
  const order: DayMonthOrder | undefined = stated?.dayMonthOrder;
  try {
    const times = timeToSeconds(values, unit, { dayMonthOrder: order, twoParts: minutesFirst ? "mm:ss" : "hh:mm" });
    return { columns, times, guessed: !stated, why: `${stated ? "stated" : meaning.why}; ${saidOf(times)}` };
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
    throw new ReadingError(error.code, error.message, { column: name, ...firstUnreadable(table, values) });
  }
}

function saidOf(times: RunTimes): string {
  const turned = times.newestFirst ? ", newest first: turned round" : "";
  if (times.startMs !== null) return `stamped, in ${times.scale.unit}${turned}`;
  const relative =
    times.scale.unit === "datetime" ? "no zone, so taken as relative" : `relative, in ${times.scale.unit}`;
  return relative + turned;
}

function firstUnreadable(table: Table, values: readonly (number | string)[]): { line?: number } {
  const row = values.findIndex((value) => (typeof value === "number" ? Number.isNaN(value) : contentless(value)));
  const line = row < 0 ? null : table.lineOf(row);
  return line === null ? {} : { line };
}

function contentless(text: string): boolean {
  return Number.isNaN(clockSeconds(text)) && Number.isNaN(stampMs(text, "dmy")) && Number.isNaN(stampMs(text, "mdy"));
}

const UNIX_MS_FROM = 1e11; // as seconds this would be the year 5138

function unitOf(
  table: Table,
  columns: readonly number[],
  meaning: ColumnMeaning,
  stated: TimeStated | undefined,
): TimeUnit {
  if (columns.length > 1) return "datetime";
  const content = contentOf(table, columns[0]!);
  if (stated?.unit !== undefined) {
    const unit = timeUnitOf(stated.unit);
    if (unit === null)
      throw new ReadingError("unknown-unit", `"${stated.unit}" is no unit of time: ms, s, min, h, d, datetime`);
    return unit === "datetime" && content === "clock" ? "clock" : unit;
  }
  if (content === "clock") return "clock";
  if (content === "stamp" || content === "date") return "datetime";
  const told = meaning.role === "time" ? meaning.unit : null;
  const first = sampleOf(table, columns[0]!)
    .map((cell) => parseNumber(cell, table.mark))
    .find((value) => value > UNIX_MS_FROM);
  if (first !== undefined) return "ms";
  return told === null || told === "datetime" || told === "clock" ? "s" : told;
}
