import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { createClient, type InStatement, type Transaction } from "@libsql/client";
import { canonicalJson } from "../content-hash.ts";
import { rowsAtOnce } from "../rows-at-once.ts";
import { type Manifest, type Source, sha256OfFile } from "./dump.ts";
import { DERIVED, DUMPED, type DumpedTable, KEPT_BACK } from "./dumped-tables.ts";
import { readTable } from "./read-table.ts";

/**
 * Puts the rows of a dump into an empty, migrated database, in one transaction; derived tables stay empty.
 * @throws Error where the dump is damaged or of another schema, or the database is not empty
 */
export async function loadDump(folder: string, into: Source): Promise<number> {
  await checkSums(folder);
  const client = createClient(into);
  const transaction = await client.transaction("write");
  try {
    await requireReady(transaction, folder);
    await transaction.execute("PRAGMA defer_foreign_keys = ON");
    let rows = 0;
    for (const table of Object.keys(DUMPED) as DumpedTable[]) {
      const path = pathOf(folder, table);
      if (path !== null) rows += await fill(transaction, table, path);
    }
    await transaction.commit();
    return rows;
  } finally {
    transaction.close();
    client.close();
  }
}

/** Null for what a dump given away lacks: then nobody can use the keys of before. */
function pathOf(folder: string, table: string): string | null {
  const place = (KEPT_BACK as readonly string[]).includes(table) ? "kept" : "open";
  const path = join(folder, place, `${table}.ndjson.gz`);
  if (existsSync(path)) return path;
  if (place === "kept") return null;
  throw new Error(`${path} is missing`);
}

/** Every file is in the list, and every one in the list is as it says: what no hash vouches for is not read. */
async function checkSums(folder: string): Promise<void> {
  for (const place of ["open", "kept"]) {
    if (place === "kept" && !existsSync(join(folder, place))) continue;
    const sums = join(folder, place, "SHA256SUMS");
    if (!existsSync(sums)) throw new Error(`${sums} is missing: this is no whole dump`);
    const lines = readFileSync(sums, "utf8").split("\n").filter(Boolean);
    const listed = new Map(lines.map((line) => [line.slice(66), line.slice(0, 64)]));
    const there = readdirSync(join(folder, place)).filter((name) => name !== "SHA256SUMS");
    for (const name of new Set([...listed.keys(), ...there])) {
      const wanted = listed.get(name);
      if (wanted === undefined) throw new Error(`${place}/${name} is not in SHA256SUMS`);
      if (!there.includes(name)) throw new Error(`${place}/${name} is missing`);
      if ((await sha256OfFile(join(folder, place, name))) !== wanted) throw new Error(`${place}/${name} is damaged`);
    }
  }
}

async function requireReady(transaction: Transaction, folder: string): Promise<void> {
  const manifest = JSON.parse(readFileSync(join(folder, "open", "manifest.json"), "utf8")) as Manifest;
  const { rows } = await transaction.execute(
    "SELECT (SELECT count(*) FROM __drizzle_migrations) AS migrations, (SELECT count(*) FROM events) + (SELECT count(*) FROM submitters) AS filled",
  );
  const [{ migrations, filled } = { migrations: 0, filled: 0 }] = rows;
  if (Number(filled) > 0) throw new Error("The database is not empty: a dump is restored into an empty one");
  if (Number(migrations) !== manifest.migrations) {
    throw new Error(
      `The dump has schema ${manifest.migrations}, this database ${migrations}: restore it with the version that made it`,
    );
  }
}

/** Rows that came with the schema give way to those of the dump. */
async function fill(transaction: Transaction, table: string, path: string): Promise<number> {
  let count = 0;
  let batch: InStatement[] = [];
  const { columns: known } = await transaction.execute(`SELECT * FROM ${table} LIMIT 0`);
  for await (const row of readTable(path)) {
    const columns = Object.keys(row);
    const unknown = columns.find((column) => !known.includes(column)); // names become SQL below, whoever wrote them
    if (unknown !== undefined) throw new Error(`${table} has no column ${JSON.stringify(unknown)}`);
    const sql = `INSERT OR REPLACE INTO ${table} (${columns.join(", ")}) VALUES (${columns.map(() => "?").join(", ")})`;
    batch.push({ sql, args: Object.values(row) });
    count++;
    if (batch.length < rowsAtOnce(table)) continue;
    await transaction.batch(batch);
    batch = [];
  }
  if (batch.length > 0) await transaction.batch(batch);
  return count;
}

/** The derived tables that are not as the dump has them. */
export async function compareDerived(folder: string, made: Source): Promise<string[]> {
  const client = createClient(made);
  const differing: string[] = [];
  for (const table of Object.keys(DERIVED)) {
    const { rows } = await client.execute(`SELECT * FROM ${table}`);
    const is = rows.map((row) => canonicalJson({ ...row })).sort();
    const was: string[] = [];
    for await (const row of readTable(join(folder, "open", `${table}.ndjson.gz`))) was.push(canonicalJson(row));
    if (is.join("\n") !== was.sort().join("\n")) differing.push(table);
  }
  client.close();
  return differing;
}
