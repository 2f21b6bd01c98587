import { createWriteStream } from "node:fs";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { createGzip } from "node:zlib";
import type { Row, Transaction, Value } from "@libsql/client";
import { canonicalJson } from "../content-hash.ts";
import { rowsAtOnce } from "../rows-at-once.ts";

/**
 * Writes a table as gzipped NDJSON, a canonical JSON object a row, in the order in which rows came.
 * @param names columns that name a row, where it is written in their order instead: derived rows may come in any
 * @returns the number of rows
 */
export async function writeTable(
  transaction: Transaction,
  table: string,
  path: string,
  names: readonly string[] | null,
): Promise<number> {
  let rows = 0;
  async function* lines() {
    for await (const row of readRows(transaction, table, names)) {
      rows++;
      yield `${canonicalJson(Object.fromEntries(Object.entries(row).map(([name, value]) => [name, written(value)])))}\n`;
    }
  }
  await pipeline(Readable.from(lines()), createGzip({ level: 9 }), createWriteStream(path));
  return rows;
}

/** A page at a time, each begun after the last row of the one before. */
async function* readRows(
  transaction: Transaction,
  table: string,
  names: readonly string[] | null,
): AsyncGenerator<Row> {
  const order = names?.join(", ") ?? "rowid";
  const marks = (names ?? [""]).map(() => "?").join(", ");
  const limit = rowsAtOnce(table);
  let after: Value[] | null = null;
  for (;;) {
    const page = await transaction.execute({
      sql: `SELECT rowid AS rowid_, * FROM ${table} ${after ? `WHERE (${order}) > (${marks})` : ""} ORDER BY ${order} LIMIT ${limit}`,
      args: after ?? [],
    });
    for (const { rowid_: _, ...row } of page.rows) yield row as Row;
    const last = page.rows.at(-1);
    if (!last || page.rows.length < limit) return;
    after = names ? names.map((name) => last[name]!) : [last.rowid_!];
  }
}

/** JSON has no bytes: they stand as base64 in an object of their own. */
function written(value: Value): unknown {
  return value instanceof ArrayBuffer ? { base64: Buffer.from(value).toString("base64") } : value;
}
