import { sql } from "drizzle-orm";
import type { Connection } from "../database.ts";
import { rowsAtOnce } from "../rows-at-once.ts";
import { type NamedSetting, rowHash, type StoredRow } from "../seal.ts";

/** Tables whose rows have the hash of themselves, each with what names a row for people. */
export const SEALED = {
  submitters: ["id"],
  keys: ["prefix"],
  key_revocations: ["prefix"],
  words: ["digest"],
  rooms: ["id"],
  room_revisions: ["room", "revision"],
  configurations: ["id"],
  configuration_revisions: ["configuration", "revision"],
  merges: ["configuration"],
  settings: ["configuration", "folded"],
  files: ["sha256"],
  series: ["sha256"],
  trials: ["id"],
  trial_revisions: ["trial", "revision"],
  runs: ["trial", "revision", "n"],
  fingerprints: ["hash", "trial", "revision", "n"],
  results: ["trial", "revision", "method_version"],
  result_bands: ["trial", "revision", "method_version", "band"],
  trial_measures: ["trial", "revision"],
  events: ["seq"],
  method_adoptions: ["ordinal"],
  spreads: ["id"],
  entries: ["id"],
  questions: ["id"],
  answers: ["question", "n"],
  pictures: ["pin", "kind"],
} as const;

export type SealedTable = keyof typeof SEALED;

export interface ReadRow {
  readonly rowid: number;
  /** What names it. */
  readonly key: string;
  readonly row: StoredRow;
  /** The hash of what is there now. */
  readonly hash: string;
  /** The hash it was written with; null in a row from before there was one. */
  readonly kept: unknown;
}

/** Every row of a table as it is stored, without what types make of it, with its hash now and then. */
export async function* readSealed(connection: Connection, table: SealedTable): AsyncGenerator<ReadRow> {
  const from = sql.raw(table);
  const limit = rowsAtOnce(table);
  for (let after = 0; ; ) {
    const page = await connection.all<StoredRow & { rowid_: number }>(
      sql`SELECT rowid AS rowid_, * FROM ${from} WHERE rowid > ${after} ORDER BY rowid LIMIT ${limit}`,
    );
    const named = table === "entries" ? await nameSettings(connection, page) : null;
    for (const { rowid_: rowid, ...row } of page) {
      const key = SEALED[table].map((column) => String(row[column])).join("/");
      const hash = rowHash(table, { ...row, ...named?.get(Number(row.setting)) });
      yield { rowid, key, row, hash, kept: row.row_sha256 };
    }
    if (page.length < limit) return;
    after = Number(page.at(-1)!.rowid_);
  }
}

/** Writes the hashes of rows from before there were any. What is wrong with such a row by then cannot be told. */
export async function sealOld(connection: Connection): Promise<number> {
  let count = 0;
  for (const table of Object.keys(SEALED) as SealedTable[]) {
    const rows = await connection.all<{ count: number }>(
      sql`SELECT count(*) AS count FROM ${sql.raw(table)} WHERE row_sha256 IS NULL`,
    );
    if (Number(rows[0]?.count) === 0) continue;
    let hashes: [rowid: number, hash: string][] = [];
    for await (const { rowid, hash, kept } of readSealed(connection, table)) {
      if (kept !== null) continue;
      hashes.push([rowid, hash]);
      count++;
      if (hashes.length < SEALED_AT_ONCE) continue;
      await writeHashes(connection, table, hashes);
      hashes = [];
    }
    await writeHashes(connection, table, hashes);
  }
  return count;
}

/** Each statement is a transaction, and waits for the disk. */
const SEALED_AT_ONCE = 2000;

async function writeHashes(
  connection: Connection,
  table: SealedTable,
  hashes: readonly (readonly [rowid: number, hash: string])[],
): Promise<void> {
  if (hashes.length === 0) return;
  await connection.run(
    sql`UPDATE ${sql.raw(table)} SET row_sha256 = j.value ->> 1 FROM json_each(${JSON.stringify(hashes)}) j WHERE ${sql.raw(table)}.rowid = j.value ->> 0`,
  );
}

async function nameSettings(connection: Connection, page: readonly StoredRow[]): Promise<Map<number, NamedSetting>> {
  const ids = page.map(({ setting }) => Number(setting));
  if (ids.length === 0) return new Map();
  const list = sql.join(
    ids.map((id) => sql`${id}`),
    sql`, `,
  );
  const rows = await connection.all<NamedSetting & { id: number }>(
    sql`SELECT id, configuration, folded FROM settings WHERE id IN (${list})`,
  );
  return new Map(rows.map(({ id, configuration, folded }) => [Number(id), { configuration, folded }]));
}
