import { getTableName, sql } from "drizzle-orm";
import type { SQLiteTable } from "drizzle-orm/sqlite-core";
import { canonicalJson } from "../../../db/content-hash.ts";
import type { Connection } from "../../../db/database.ts";
import type { Damage } from "../../../db/fixity/damage.ts";
import { configurationTraits } from "../../../db/schema/configurations.ts";
import { pooled, standings, trialStates } from "../../../db/schema/standings.ts";
import { type StoredRow, stored } from "../../../db/seal.ts";
import { derive } from "../derive.ts";

/** Works derived tables out anew and compares every value with what is stored. */
export async function checkDerived(connection: Connection, found: Damage[]): Promise<void> {
  let derived: Awaited<ReturnType<typeof derive>>;
  try {
    derived = await derive(connection);
  } catch (error) {
    // What it is made of is damaged, and is reported by itself.
    const what = `it cannot be worked out from what is stored: ${(error as Error).message}`;
    found.push({ table: "derived tables", key: "", what });
    return;
  }
  await compare(connection, found, trialStates, ["trial"], derived.states);
  await compare(connection, found, pooled, ["entry", "basis", "seq"], derived.pooled);
  await compare(connection, found, configurationTraits, ["trait", "configuration"], derived.traits);
  const bands = new Map(
    (await connection.all<StoredRow>(sql`SELECT id, band FROM entries`)).map((row) => [row.id, row.band]),
  );
  await compare(connection, found, standings, ["entry", "basis"], standing(derived.pooled, bands));
}

type Pooled = Awaited<ReturnType<typeof derive>>["pooled"][number];

/** The newest figure of each entry and basis, where there is one. */
function standing(rows: readonly Pooled[], bands: ReadonlyMap<unknown, unknown>) {
  const newest = Map.groupBy(rows, ({ entry, basis }) => `${entry}/${basis}`)
    .values()
    .map((same) => same.at(-1)!);
  return newest
    .filter(({ cadrM3PerH }) => typeof cadrM3PerH === "number")
    .map(({ entry, basis, seq, cadrM3PerH }) => ({ entry, basis, seq, cadrM3PerH, band: bands.get(entry) }))
    .toArray();
}

async function compare(
  connection: Connection,
  found: Damage[],
  table: SQLiteTable,
  names: readonly string[],
  wanted: readonly Record<string, unknown>[],
): Promise<void> {
  const name = getTableName(table);
  const keyOf = (row: StoredRow) => names.map((column) => String(row[column])).join("/");
  const should = new Map(wanted.map((row) => stored(table, row)).map((row) => [keyOf(row), canonicalJson(row)]));
  const is = await connection.all<StoredRow>(sql`SELECT * FROM ${sql.raw(name)}`);
  for (const row of is) {
    const key = keyOf(row);
    if (should.get(key) !== canonicalJson({ ...row })) {
      found.push({ table: name, key, what: "it is not what the log makes of what is stored" });
    }
    should.delete(key);
  }
  for (const key of should.keys()) found.push({ table: name, key, what: "a row is missing" });
}
