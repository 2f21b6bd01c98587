import { sha256 } from "@noble/hashes/sha2.js";
import { getTableColumns, getTableName, is, SQL } from "drizzle-orm";
import type { SQLiteTable } from "drizzle-orm/sqlite-core";
import { canonicalJson, toHex } from "./content-hash.ts";
import { entries } from "./schema/standings.ts";

/**
 * Columns that no row's hash covers: numbers that the database gives, which are checked by what they point at (db/fixity/),
 * and content that may be erased, which has a hash of its own.
 */
const LEFT_OUT: Readonly<Record<string, readonly string[]>> = {
  settings: ["id"],
  trials: ["setting"],
  entries: ["setting"],
  events: ["seq"],
  spreads: ["event"],
  method_adoptions: ["event"],
  words: ["salt", "text", "erasedAt", "erasedReason", "erasedSha256"],
  files: ["bytes", "erasedAt", "erasedReason", "erasedSha256"],
  series: ["bytes", "erasedAt", "erasedReason", "erasedSha256"],
};

type Row = Readonly<Record<string, unknown>>;

/**
 * A row with the hash of itself, to be inserted.
 * @param more what stands for a number that the database gives, where nothing else tells it
 */
export function sealed<T extends SQLiteTable>(
  table: T,
  row: T["$inferInsert"],
  more: Row = {},
): T["$inferInsert"] & { rowSha256: string } {
  return { ...row, rowSha256: rowHash(table, row, more) };
}

type NewEntry = Omit<typeof entries.$inferInsert, "setting">;

/** An entry's row. Its setting is a number of the database: what it names stands in the hash. */
export function sealedEntry(row: NewEntry, named: { readonly configuration: string; readonly folded: string }) {
  return { ...row, rowSha256: rowHash(entries, row, named) };
}

/** SHA-256 of the canonical JSON (RFC 8785) of a row's columns by their names, bytes as hex, what is missing as null. */
export function rowHash(table: SQLiteTable, row: Row, more: Row = {}): string {
  const name = getTableName(table);
  const covered = Object.keys(getTableColumns(table)).filter(
    (column) => column !== "rowSha256" && !LEFT_OUT[name]?.includes(column),
  );
  const values = covered.map((column): [string, unknown] => [column, hashable(row[column])]);
  return sha256Of({ table: name, ...Object.fromEntries(values), ...more });
}

/** The hash over when and why content was erased. */
export function erasureHash(key: string, { reason, at }: { readonly reason: string; readonly at: string }): string {
  return sha256Of({ erased: key, reason, at });
}

function sha256Of(value: unknown): string {
  return toHex(sha256(new TextEncoder().encode(canonicalJson(value))));
}

function hashable(value: unknown): unknown {
  if (is(value, SQL)) throw new TypeError("a row is hashed before the database knows it: give plain values");
  return value instanceof Uint8Array ? toHex(value) : (value ?? null);
}
