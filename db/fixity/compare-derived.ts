import { getTableName, sql } from "drizzle-orm";
import type { SQLiteTable } from "drizzle-orm/sqlite-core";
import { canonicalJson } from "../content-hash.ts";
import type { Connection } from "../database.ts";
import { configurationTraits } from "../schema/configurations.ts";
import { pooled, standings, trialStates } from "../schema/standings.ts";
import { type StoredRow, stored } from "../seal.ts";
import { readable } from "./check-rows.ts";
import type { Damage } from "./damage.ts";

type Pooled = typeof pooled.$inferInsert;

/** What derived tables must hold. */
export interface Derived {
  readonly states: readonly (typeof trialStates.$inferInsert)[];
  readonly pooled: readonly Pooled[];
  readonly traits: readonly (typeof configurationTraits.$inferInsert)[];
}

/** Compares every value of the derived tables with what they must hold. */
export async function compareDerived(connection: Connection, found: Damage[], derived: Derived): Promise<void> {
  await compare(connection, found, trialStates, ["trial"], derived.states);
  await compare(connection, found, pooled, ["entry", "basis", "seq"], derived.pooled);
  await compare(connection, found, configurationTraits, ["trait", "configuration"], derived.traits);
  const rows = await connection.all<StoredRow>(sql`SELECT id, band FROM entries`);
  const bands = new Map(rows.map((row) => [row.id, row.band]));
  await compare(connection, found, standings, ["entry", "basis"], standing(derived.pooled, bands));
}

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
  await readable(found, name, async () => {
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
  });
}
