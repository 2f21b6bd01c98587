import { sha256 } from "@noble/hashes/sha2.js";
import { toHex } from "../content-hash.ts";
import type { Connection } from "../database.ts";
import { erasureHash, type StoredRow } from "../seal.ts";
import type { Damage } from "./damage.ts";
import { readSealed, SEALED, type SealedTable } from "./sealed-rows.ts";

/** What was read, and what of it is gone on purpose. */
export interface RowsChecked {
  rows: number;
  erased: number;
}

/** Hashes every row again, and every content by the hash that names it; erased content is counted, not damaged. */
export async function checkRows(connection: Connection, found: Damage[]): Promise<RowsChecked> {
  const checked = { rows: 0, erased: 0 };
  for (const table of Object.keys(SEALED) as SealedTable[]) {
    await readable(found, table, () => checkTable(connection, found, table, checked));
  }
  return checked;
}

/** A value that cannot be read, as a whole number beyond 2⁵³, is a damage of its table; the other tables are read all the same. */
export async function readable(found: Damage[], table: string, check: () => Promise<void>): Promise<void> {
  try {
    await check();
  } catch (error) {
    const { cause } = error as Error;
    const why = cause instanceof Error ? cause.message : (error as Error).message;
    found.push({ table, key: "", what: `it cannot be read to its end: ${why}` });
  }
}

async function checkTable(
  connection: Connection,
  found: Damage[],
  table: SealedTable,
  checked: RowsChecked,
): Promise<void> {
  const check = CONTENT[table];
  for await (const { key, row, hash, kept } of readSealed(connection, table)) {
    checked.rows++;
    if (hash !== kept) found.push({ table, key, what: "the row is not as it was written" });
    if (!check) continue;
    if (isErased(row)) {
      checked.erased++;
      if (!isErasureWhole(row, key)) found.push({ table, key, what: "when or why it was erased was changed" });
    } else if (!check(row)) found.push({ table, key, what: "the content does not have its hash" });
  }
}

const CONTENT: Partial<Record<SealedTable, (row: StoredRow) => boolean>> = {
  words: ({ salt, text, digest }) => hashOf(bytesOf(salt), bytesOf(text)) === digest,
  files: ({ bytes, sha256: named }) => hashOf(bytesOf(bytes)) === named,
  series: ({ channels_json: header, bytes, sha256: named }) =>
    hashOf(bytesOf(`${header}\n${hashOf(bytesOf(bytes))}`)) === named,
  trial_revisions: isHashOfJson,
  results: isHashOfJson,
  configuration_revisions: isHashOfJson,
  pictures: ({ png, sha256: named }) => hashOf(bytesOf(png)) === named,
};

function isHashOfJson({ json, sha256: named }: StoredRow): boolean {
  return hashOf(bytesOf(json)) === named;
}

/** Erasure takes the content and leaves its date and reason. */
function isErased(row: StoredRow): boolean {
  return "erased_reason" in row && (row.bytes ?? row.text ?? null) === null;
}

function isErasureWhole(row: StoredRow, key: string): boolean {
  const { erased_at: at, erased_reason: reason, erased_sha256: kept } = row;
  return erasureHash(key, { reason: String(reason), at: String(at) }) === kept;
}

function hashOf(...parts: Uint8Array[]): string {
  const hash = sha256.create();
  for (const part of parts) hash.update(part);
  return toHex(hash.digest());
}

function bytesOf(value: unknown): Uint8Array {
  if (value instanceof ArrayBuffer) return new Uint8Array(value);
  return value instanceof Uint8Array ? value : new TextEncoder().encode(String(value ?? ""));
}
