import { createHash } from "node:crypto";
import { createReadStream, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { createClient, type Transaction } from "@libsql/client";
import { DERIVED, DERIVED_NAMES, type DerivedTable, DUMPED, type DumpedTable, KEPT_BACK } from "./dumped-tables.ts";
import { writeTable } from "./write-table.ts";

/** What a dump is of, and what is in it. */
export interface Manifest {
  /** Seq and instant of the last line of the log in it. */
  readonly as_of_seq: number;
  readonly as_of: string | null;
  readonly migrations: number;
  readonly method_version: string;
  readonly licence: "CC0-1.0";
  readonly rows: Readonly<Record<string, number>>;
}

/** The database that is read. */
export interface Source {
  readonly url: string;
  readonly authToken?: string | undefined;
}

/** What a dump says of itself. */
export interface About {
  readonly methodVersion: string;
  /** Its README, from the columns of each table. */
  readonly readme: (columns: ReadonlyMap<string, readonly string[]>) => string;
}

/**
 * Writes all that is stored, as it stood at one moment, into a new folder of `into`, named by the last line of the log. It
 * is there whole or not at all: it is written under another name first. Equal databases give equal bytes.
 * @returns the folder
 */
export async function dump(from: Source, into: string, about: About): Promise<string> {
  const client = createClient(from);
  const transaction = await client.transaction("read"); // one moment, however long it takes
  try {
    const [last] = (await transaction.execute("SELECT seq, at FROM events ORDER BY seq DESC LIMIT 1")).rows;
    const seq = Number(last?.seq ?? 0);
    const folder = join(into, String(seq).padStart(8, "0"));
    const part = `${folder}.part`;
    rmSync(part, { recursive: true, force: true });
    for (const place of ["open", "kept"]) mkdirSync(join(part, place), { recursive: true });
    const rows = await writeTables(transaction, part);
    const manifest: Manifest = {
      as_of_seq: seq,
      as_of: last ? String(last.at) : null,
      migrations: await countMigrations(transaction),
      method_version: about.methodVersion,
      licence: "CC0-1.0",
      rows,
    };
    writeFileSync(join(part, "open", "manifest.json"), `${JSON.stringify(manifest, null, 2)}\n`);
    writeFileSync(join(part, "open", "README.md"), about.readme(await listColumns(transaction)));
    for (const place of ["open", "kept"]) await writeSums(join(part, place));
    rmSync(folder, { recursive: true, force: true });
    renameSync(part, folder);
    return folder;
  } finally {
    transaction.close();
    client.close();
  }
}

async function writeTables(transaction: Transaction, part: string): Promise<Record<string, number>> {
  const rows: Record<string, number> = {};
  for (const table of [...Object.keys(DUMPED), ...Object.keys(DERIVED)]) {
    const place = KEPT_BACK.includes(table as DumpedTable) ? "kept" : "open";
    rows[table] = await writeTable(
      transaction,
      table,
      join(part, place, `${table}.ndjson.gz`),
      DERIVED_NAMES[table as DerivedTable] ?? null,
    );
  }
  return rows;
}

async function countMigrations(transaction: Transaction): Promise<number> {
  const { rows } = await transaction.execute("SELECT count(*) AS count FROM __drizzle_migrations");
  return Number(rows[0]!.count);
}

async function listColumns(transaction: Transaction): Promise<Map<string, string[]>> {
  const columns = new Map<string, string[]>();
  for (const table of [...Object.keys(DUMPED), ...Object.keys(DERIVED)]) {
    const { rows } = await transaction.execute(`PRAGMA table_info(${table})`);
    columns.set(
      table,
      rows.map(({ name }) => String(name)),
    );
  }
  return columns;
}

/** The form that `sha256sum --check` reads. */
async function writeSums(folder: string): Promise<void> {
  const lines: string[] = [];
  for (const name of readdirSync(folder).sort()) {
    lines.push(`${await sha256OfFile(join(folder, name))}  ${relative(folder, join(folder, name))}\n`);
  }
  writeFileSync(join(folder, "SHA256SUMS"), lines.join(""));
}

export async function sha256OfFile(path: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(path)) hash.update(chunk as Buffer);
  return hash.digest("hex");
}
