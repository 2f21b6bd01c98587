import { type ColumnMeaning, meaningOf } from "../../../analysis/reading/column-meaning.ts";
import type { ChannelStated, ColumnsStated } from "../../../analysis/reading/columns-stated.ts";
import { decodeText } from "../../../analysis/reading/decode-text.ts";
import { fold } from "../../../analysis/reading/header-text.ts";
import { writesTenths } from "../../../analysis/reading/particle-size.ts";
import type { ColumnRead } from "../../../analysis/reading/read-log.ts";
import { readTable } from "../../../analysis/reading/read-table.ts";
import { ReadingError } from "../../../analysis/reading/reading-error.ts";
import type { Channel } from "../../../analysis/trial.ts";
import { type ColumnUse, MOST_COLUMNS, type Slot } from "./form-fields.ts";
import type { FormReader } from "./form-reader.ts";
import { readOnce, requireFewRows } from "./read-once.ts";

/** A column of a log as the form shows it: what it is used for, and why. */
export interface FormColumn {
  readonly name: string;
  readonly use: ColumnUse;
  /** Blank: as the header says, or as is usual for what the column holds. */
  readonly unit: string;
  readonly fromUm: number | null;
  readonly toUm: number | null;
  /** Both sizes as they are written. */
  readonly written: { readonly from: string; readonly to: string };
  readonly cumulative: Channel["cumulative"];
  readonly why: string;
}

/** `columns` of a run on the wire. */
interface SentColumns {
  readonly t?: { readonly column: string; readonly unit?: string; readonly day_month?: "dmy" | "mdy" };
  readonly channels: readonly {
    readonly column: string;
    readonly quantity: Channel["quantity"];
    readonly unit?: string;
    readonly from_um: number | null;
    readonly to_um: number | null;
    readonly cumulative: Channel["cumulative"];
  }[];
}

/** What a log's columns are taken for where nobody says otherwise; of a log that cannot be read so, their names alone. */
export function guessColumns(bytes: Uint8Array): readonly FormColumn[] {
  try {
    return readOnce(bytes).columns.map(shown);
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
  }
  try {
    requireFewRows(bytes);
    const { names } = readTable(decodeText(bytes));
    const tenths = writesTenths(names.map(fold));
    return names.map((name) => byName(name, meaningOf(name, tenths)));
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
    return [];
  }
}

function shown({ name, role, quantity, fromUm, toUm, cumulative, why }: ColumnRead): FormColumn {
  const use = role === "channel" ? (quantity ?? "raw") : role === "time" ? "time" : "none";
  return { ...sizes(fromUm, toUm, cumulative ?? "none"), name, use, unit: "", why };
}

/** What the name alone says, where the log could not be read. */
function byName(name: string, meaning: ColumnMeaning): FormColumn {
  if (meaning.role !== "channel") {
    return {
      ...sizes(null, null, "none"),
      name,
      use: meaning.role === "time" ? "time" : "none",
      unit: "",
      why: meaning.why,
    };
  }
  const { quantity, fromUm, toUm, cumulative } = meaning.channel;
  return { ...sizes(fromUm, toUm, cumulative), name, use: quantity, unit: "", why: meaning.why };
}

function sizes(fromUm: number | null, toUm: number | null, cumulative: Channel["cumulative"]) {
  const written = (um: number | null) => (um === null ? "" : String(um));
  return { fromUm, toUm, cumulative, written: { from: written(fromUm), to: written(toUm) } };
}

/** The columns as the form has them corrected; as guessed where it was shown no columns, or those of another log. */
export function columnsOfForm(form: FormReader, slot: Slot, guessed: readonly FormColumn[]): readonly FormColumn[] {
  const own = guessed.slice(0, MOST_COLUMNS);
  const isShown = own.every(({ name }, n) => plain(form.text(`${slot}.columns.${n}.name`) ?? "") === plain(name));
  if (!isShown) return guessed;
  return own.map((guess, n): FormColumn => {
    const at = `${slot}.columns.${n}` as const;
    const use = form.choice(`${at}.use`, ["none", "time", "number", "mass", "raw"]) ?? guess.use;
    const cumulative = form.choice(`${at}.cumulative`, ["none", "above", "below"]) ?? "none";
    const sized = use === "number" || use === "mass" || use === "raw";
    const fromUm = (sized ? form.number(`${at}.from`) : undefined) ?? null;
    const toUm = (sized ? form.number(`${at}.to`) : undefined) ?? null;
    const written = { from: form.text(`${at}.from`) ?? "", to: form.text(`${at}.to`) ?? "" };
    return { ...guess, use, unit: form.text(`${at}.unit`) ?? "", fromUm, toUm, written, cumulative };
  });
}

/** A header as it survives a form: line ends and blanks are not told apart. */
function plain(name: string): string {
  return name.replaceAll(/[\p{Cc}\s\ufffd]+/gu, " ").trim();
}

/**
 * Columns to send, or none where they are as guessed: then the server's own guess counts, which knows a date and a time of
 * day in two columns.
 */
export function sentColumns(
  form: FormReader,
  slot: Slot,
  columns: readonly FormColumn[],
  guessed: readonly FormColumn[],
): SentColumns | undefined {
  const dayMonth = form.choice(`${slot}.day_month`, ["dmy", "mdy"]);
  const same = columns.length <= guessed.length && columns.every((column, n) => isSame(column, guessed[n]!));
  if (same && dayMonth === undefined) return undefined;
  const times = columns.filter(({ use }) => use === "time");
  const asGuessed = columns.every(({ use }, n) => (use === "time") === (guessed[n]!.use === "time"));
  const named = times[0] && (!asGuessed || times[0].unit !== "" || dayMonth !== undefined) ? times[0] : undefined;
  if (times.length === 0) form.complain(`${slot}.columns.0.use`, "Say which column holds the time.");
  if (times.length > 1 && named) {
    const second = columns.indexOf(times[1]!);
    form.complain(`${slot}.columns.${second}.use`, "Only one column can be named as the time.");
  }
  const channels = columns.flatMap(({ name, use, unit, fromUm, toUm, cumulative }) => {
    if (use === "none" || use === "time") return [];
    const size = { from_um: fromUm, to_um: toUm, cumulative };
    return [{ column: name, quantity: use, ...(unit === "" ? {} : { unit }), ...size }];
  });
  if (channels.length === 0) form.complain(`${slot}.columns.0.use`, "Say which column holds readings of particles.");
  const t = named && {
    column: named.name,
    ...(named.unit === "" ? {} : { unit: named.unit }),
    ...(dayMonth === undefined ? {} : { day_month: dayMonth }),
  };
  return { ...(t ? { t } : {}), channels };
}

function isSame(a: FormColumn, b: FormColumn): boolean {
  const readings = a.use !== "none" && a.use !== "time";
  const sizes = !readings || (a.fromUm === b.fromUm && a.toUm === b.toUm && a.cumulative === b.cumulative);
  return a.use === b.use && a.unit === b.unit && sizes;
}

/** The columns of a run on the wire in the words of the reader of logs. */
export function statedColumns(sent: SentColumns | undefined): ColumnsStated | undefined {
  if (!sent) return undefined;
  const { t, channels } = sent;
  return {
    t: t && { column: t.column, unit: t.unit, dayMonthOrder: t.day_month },
    channels: channels.map(({ column, quantity, unit, from_um, to_um, cumulative }): ChannelStated => {
      return { column, quantity, unit, fromUm: from_um, toUm: to_um, cumulative };
    }),
  };
}
