import { sha256 } from "@noble/hashes/sha2.js";
import { getTableColumns, getTableName } from "drizzle-orm";
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
  words: ["salt", "text", "erased_at", "erased_reason", "erased_sha256"],
  files: ["bytes", "erased_at", "erased_reason", "erased_sha256"],
  series: ["bytes", "erased_at", "erased_reason", "erased_sha256"],
};

/** A row as the database gives it: columns by their names there, blobs as bytes. */
export type StoredRow = Readonly<Record<string, unknown>>;

/** A row with the hash of itself, to be inserted. */
export function sealed<T extends SQLiteTable>(table: T, row: T["$inferInsert"]): T["$inferInsert"] & Sealed {
  return { ...row, rowSha256: rowHash(getTableName(table), stored(table, row)) };
}

interface Sealed {
  readonly rowSha256: string;
}

/** An entry's row. Its setting is a number of the database: what it names stands in the hash. */
export function sealedEntry(row: Omit<typeof entries.$inferInsert, "setting">, named: NamedSetting) {
  return { ...row, rowSha256: rowHash("entries", { ...stored(entries, row), ...named }) };
}

/** A setting by what readers know it by. */
export interface NamedSetting {
  readonly configuration: string;
  readonly folded: string;
}

/** SHA-256 of the canonical JSON (RFC 8785) of a row with the name of its table: bytes as hex, nothing as null. */
export function rowHash(table: string, row: StoredRow): string {
  const left = ["row_sha256", ...(LEFT_OUT[table] ?? [])];
  const covered = Object.entries(row).filter(([column]) => !left.includes(column));
  return sha256Of({ table, row: Object.fromEntries(covered.map(([column, value]) => [column, hashable(value)])) });
}

/** The hash over when and why content was erased. */
export function erasureHash(key: string, { reason, at }: { readonly reason: string; readonly at: string }): string {
  return sha256Of({ erased: key, reason, at });
}

/** A row to be inserted, as it will be read back: every column of its table by its name there. */
export function stored(table: SQLiteTable, row: Record<string, unknown>): StoredRow {
  const columns = Object.entries(getTableColumns(table));
  return Object.fromEntries(
    columns.map(([key, column]) => {
      const value = row[key] ?? null;
      return [column.name, value === null ? null : column.mapToDriverValue(value)];
    }),
  );
}

function sha256Of(value: unknown): string {
  return toHex(sha256(new TextEncoder().encode(canonicalJson(value))));
}

function hashable(value: unknown): unknown {
  if (value === Infinity || value === -Infinity) return String(value); // JSON has none, and none is ever written
  if (value instanceof ArrayBuffer) return toHex(new Uint8Array(value));
  return value instanceof Uint8Array ? toHex(value) : value;
}
