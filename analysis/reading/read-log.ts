import type { Channel, Series } from "../trial.ts";
import { type ChannelColumn, guessedChannels, statedChannels } from "./channel-columns.ts";
import { meaningOf } from "./column-meaning.ts";
import type { ColumnsStated } from "./columns-stated.ts";
import { decodeText } from "./decode-text.ts";
import { fold } from "./header-text.ts";
import { parseNumber } from "./number-text.ts";
import { writesTenths } from "./particle-size.ts";
import { type Dropped, dropsOf, readTable, type Table } from "./read-table.ts";
import { ReadingError } from "./reading-error.ts";
import { isMissing } from "./table-header.ts";
import { readTimeColumn, type TimeColumn } from "./time-column.ts";
import { inTimeOrder, type TimeScale } from "./time-to-seconds.ts";

export interface LogRead {
  /** Seconds after the first row; number in 1/cm3, mass in ug/m3, raw as it is. */
  readonly series: Series;
  /** Unix time of the first row in ms; null where the log's times are relative or carry no zone. */
  readonly startMs: number | null;
  /** How marks and windows given in the log's own time are read. */
  readonly scale: TimeScale;
  readonly columns: readonly ColumnRead[];
  /** Rows in the series. */
  readonly rows: number;
  readonly dropped: readonly Dropped[];
}

/** What a column of the file was taken for, and why. */
export interface ColumnRead {
  readonly name: string;
  readonly role: "time" | "channel" | "ignored";
  /** The channel's id; null for other roles. */
  readonly id: string | null;
  readonly quantity: Channel["quantity"] | null;
  /** Of the series for a channel, of the file for the time. */
  readonly unit: string | null;
  readonly fromUm: number | null;
  readonly toUm: number | null;
  readonly cumulative: Channel["cumulative"] | null;
  readonly guessed: boolean;
  readonly why: string;
}

/** Values a series may have: t and all channels, missing ones included. A request of 4 MiB holds no more in JSON. */
export const MAX_VALUES = 200_000;

/**
 * A counter's log (CSV in any of its dresses) → a series in base units. Columns that are not stated are guessed from their
 * names and contents, and told as such. Rows without a readable time are left out and counted; cells without a number are
 * NaN. @throws ReadingError
 */
export function readLog(source: string | Uint8Array, stated: ColumnsStated = {}): LogRead {
  const table = readTable(decodeText(source));
  const tenths = writesTenths(table.names.map(fold));
  const meanings = table.names.map((name) => meaningOf(name, tenths));
  const time = readTimeColumn(table, meanings, stated.t);
  const open = meanings.map((meaning, column) => (time.columns.includes(column) ? TIME : meaning));
  const chosen = stated.channels
    ? statedChannels(table.names, open, stated.channels)
    : guessedChannels(table.names, open, (column) => holdsNumbers(table, column));
  const count = table.rows.length * (1 + chosen.length);
  if (count > MAX_VALUES) {
    throw new ReadingError(
      "too-large",
      `${count} values; at most ${MAX_VALUES}: name fewer columns, crop the log or thin it`,
    );
  }
  const { tS } = time.times;
  const readable = Array.from(tS.keys()).filter((row) => !Number.isNaN(tS[row]!));
  const channels = chosen.map(({ column, factor, guessed: _, why: __, ...channel }): Channel => {
    const values = inTimeOrder(columnValues(table, column, factor), time.times);
    return { ...channel, values: Float64Array.from(readable, (row) => values[row]!) };
  });
  for (const { id, values } of channels) {
    if (values.every(Number.isNaN))
      throw new ReadingError("no-values", `column "${id}" holds no numbers`, { column: id });
  }
  return {
    series: { tS: Float64Array.from(readable, (row) => tS[row]!), channels, cropFromS: null, cropToS: null },
    startMs: time.times.startMs,
    scale: time.times.scale,
    columns: table.names.map((name, column) => columnRead(name, column, time, chosen, meanings[column]!.why)),
    rows: readable.length,
    dropped: [...table.dropped, ...dropsOf({ "unreadable-time": tS.length - readable.length })],
  };
}

const TIME = { role: "ignored", why: "the time" } as const;

function columnValues(table: Table, column: number, factor: number): Float64Array {
  return Float64Array.from(table.rows, (row) => {
    const value = parseNumber(row[column] ?? "", table.mark) * factor;
    return Number.isFinite(value) ? value : Number.NaN;
  });
}

function holdsNumbers(table: Table, column: number): boolean {
  let numbers = 0;
  let words = 0;
  for (const row of table.rows) {
    const cell = row[column] ?? "";
    if (isMissing(cell)) continue;
    if (Number.isNaN(parseNumber(cell, table.mark))) words++;
    else numbers++;
  }
  return numbers > words;
}

function columnRead(
  name: string,
  column: number,
  time: TimeColumn,
  chosen: readonly ChannelColumn[],
  why: string,
): ColumnRead {
  const nothing = { name, id: null, quantity: null, unit: null, fromUm: null, toUm: null, cumulative: null };
  if (time.columns.includes(column)) {
    return { ...nothing, role: "time", unit: time.times.scale.unit, guessed: time.guessed, why: time.why };
  }
  const channel = chosen.find((one) => one.column === column);
  if (!channel) return { ...nothing, role: "ignored", guessed: true, why };
  const { id, quantity, unit, fromUm, toUm, cumulative, guessed } = channel;
  return { name, role: "channel", id, quantity, unit, fromUm, toUm, cumulative, guessed, why: channel.why };
}
