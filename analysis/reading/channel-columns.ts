import type { Channel } from "../trial.ts";
import { parseUnit, UnitError } from "../units.ts";
import { type ChannelMeaning, type ColumnMeaning, DIMENSIONS } from "./column-meaning.ts";
import type { ChannelStated } from "./columns-stated.ts";
import { findColumn } from "./find-column.ts";
import { fold, splitHeader } from "./header-text.ts";
import { ReadingError } from "./reading-error.ts";

/** A column that becomes a channel: all of it but its values. */
export interface ChannelColumn extends Omit<Channel, "values"> {
  readonly column: number;
  /** Base units per unit of the file. */
  readonly factor: number;
  readonly guessed: boolean;
  readonly why: string;
}

/** Names of the size bands and their trade names: a channel so called could be taken for a band. */
export const RESERVED_IDS: ReadonlySet<string> = new Set([
  "0.1-1.0",
  "0.5-3.0",
  "5-11",
  "mass",
  "smoke",
  "dust",
  "pollen",
]);

/** The channels a submitter states. @throws ReadingError "unknown-column", "non-linear-index", "unknown-unit", "reserved-name", "duplicate-id", "no-channels" */
export function statedChannels(
  names: readonly string[],
  meanings: readonly ColumnMeaning[],
  stated: readonly ChannelStated[],
): ChannelColumn[] {
  if (stated.length === 0) throw new ReadingError("no-channels", "no channel is stated");
  const ids = new Set<string>();
  return stated.map((channel) => {
    const column = findColumn(names, channel.column);
    const meaning = meanings[column]!;
    if (meaning.role === "index") throw new ReadingError("non-linear-index", undefined, { column: channel.column });
    if (channel.id !== undefined && RESERVED_IDS.has(fold(channel.id))) {
      throw new ReadingError("reserved-name", `"${channel.id}" is the name of a size band`, { column: channel.column });
    }
    const id = channel.id ?? idOf(names[column]!, column);
    if (ids.has(id))
      throw new ReadingError("duplicate-id", `two channels are called "${id}"`, { column: channel.column });
    ids.add(id);
    const guess = meaning.role === "channel" ? meaning.channel : SIZELESS;
    const quantity = channel.quantity ?? guess.quantity;
    const unit = channel.unit ?? unitFor(quantity, guess, names[column]!);
    const sized = channel.fromUm !== undefined || channel.toUm !== undefined || channel.cumulative !== undefined;
    const sizes = sized ? SIZELESS : guess;
    const { code, factor } = baseUnit(quantity, unit, channel.column);
    return {
      column,
      id,
      quantity,
      unit: code,
      factor,
      fromUm: channel.fromUm ?? sizes.fromUm,
      toUm: channel.toUm ?? sizes.toUm,
      cumulative: channel.cumulative ?? sizes.cumulative,
      ceiling: channel.ceiling == null ? null : channel.ceiling * factor,
      guessed: false,
      why: "stated",
    };
  });
}

/** The channels that names and contents suggest. `numeric`: whether a column holds numbers. @throws ReadingError "non-linear-index", "no-channels" */
export function guessedChannels(
  names: readonly string[],
  meanings: readonly ColumnMeaning[],
  numeric: (column: number) => boolean,
): ChannelColumn[] {
  const told = meanings.flatMap((meaning, column) => (meaning.role === "channel" && numeric(column) ? [column] : []));
  const unknown = meanings.flatMap((meaning, column) =>
    meaning.role === "unknown" && numeric(column) ? [column] : [],
  );
  const indices = names.filter((_, column) => meanings[column]!.role === "index");
  const onlyRowNumbers = indices.every((name) => fold(name) === "index") && unknown.length > 0;
  if (told.length === 0 && indices.length > 0 && !onlyRowNumbers) {
    throw new ReadingError("non-linear-index", undefined, { column: indices[0]! });
  }
  const columns = told.length > 0 ? told : unknown;
  if (columns.length === 0)
    throw new ReadingError("no-channels", `none of these is a concentration: ${names.join(", ").slice(0, 300)}`);
  const ids = new Set<string>();
  return columns.map((column) => {
    const meaning = meanings[column]!;
    const guess =
      meaning.role === "channel" ? meaning.channel : { ...SIZELESS, unit: splitHeader(names[column]!).unit ?? "1" };
    const { code, factor } = baseUnit(guess.quantity, guess.unit, names[column]!);
    const id = freeId(idOf(names[column]!, column), ids);
    const why = meaning.role === "channel" ? meaning.why : "numbers of unknown meaning, and nothing better in the file";
    return { ...guess, column, id, unit: code, factor, ceiling: null, guessed: true, why };
  });
}

const SIZELESS: ChannelMeaning = { quantity: "raw", unit: "1", fromUm: null, toUm: null, cumulative: "none" };
const LONGEST_ID = 100; // an id is a name, not a text

/** A column's name as an id: the same whether columns are stated or guessed, so that runs match by it. */
function idOf(name: string, column: number): string {
  const id = name
    .replace(/\p{Cc}+/gu, " ")
    .trim()
    .slice(0, LONGEST_ID);
  if (id === "") return `column ${column + 1}`;
  return RESERVED_IDS.has(fold(id)) ? `ch-${id}` : id;
}

function freeId(id: string, taken: Set<string>): string {
  let free = id;
  for (let n = 2; taken.has(free); n++) free = `${id}-${n}`;
  taken.add(free);
  return free;
}

function unitFor(quantity: Channel["quantity"], guess: ChannelMeaning, name: string): string {
  if (guess.quantity === quantity) return guess.unit;
  if (quantity === "raw") return splitHeader(name).unit ?? "1";
  return quantity === "mass" ? "ug/m3" : "1/cm3";
}

/** Unit code and factor to base units; raw values stay as they are. @throws ReadingError "unknown-unit" */
function baseUnit(quantity: Channel["quantity"], unit: string, column: string): { code: string; factor: number } {
  if (quantity === "raw") return { code: unit, factor: 1 };
  try {
    return { code: quantity === "mass" ? "ug/m3" : "1/cm3", factor: parseUnit(unit, DIMENSIONS[quantity]).scale };
  } catch (error) {
    if (error instanceof UnitError) throw new ReadingError("unknown-unit", error.message, { column });
    throw error;
  }
}
