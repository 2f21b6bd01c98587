import { createWriteStream } from "node:fs";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { createGzip } from "node:zlib";
import type { Transaction, Value } from "@libsql/client";
import { canonicalJson } from "../../../db/content-hash.ts";

const ROWS_A_READ = 200;

/** Writes a table as gzipped NDJSON, a canonical JSON object a row, and returns the number of rows. */
export async function writeTable(transaction: Transaction, table: string, path: string): Promise<number> {
  let rows = 0;
  async function* lines() {
    for (let after = 0; ; ) {
      const page = await transaction.execute({
        sql: `SELECT rowid AS rowid_, * FROM ${table} WHERE rowid > ? ORDER BY rowid LIMIT ${ROWS_A_READ}`,
        args: [after],
      });
      for (const { rowid_: rowid, ...row } of page.rows) {
        after = Number(rowid);
        rows++;
        yield `${canonicalJson(Object.fromEntries(page.columns.slice(1).map((name) => [name, written(row[name]!)])))}\n`;
      }
      if (page.rows.length < ROWS_A_READ) return;
    }
  }
  await pipeline(Readable.from(lines()), createGzip({ level: 9 }), createWriteStream(path));
  return rows;
}

/** JSON has no bytes: they stand as base64 in an object of their own. */
function written(value: Value): unknown {
  return value instanceof ArrayBuffer ? { base64: Buffer.from(value).toString("base64") } : value;
}
