import { sql } from "drizzle-orm";
import { readMigrationFiles } from "drizzle-orm/migrator";
import type { Connection } from "../database.ts";
import { MIGRATIONS_FOLDER } from "../migrate.ts";
import type { Damage } from "./damage.ts";

/** Whether the database says of itself that it saw just the migrations that there are. */
export async function checkMigrations(connection: Connection): Promise<Damage[]> {
  const wanted = readMigrationFiles({ migrationsFolder: MIGRATIONS_FOLDER });
  const rows = await connection.all<{ hash: string; created_at: number }>(
    sql`SELECT hash, created_at FROM __drizzle_migrations ORDER BY created_at`,
  );
  const said = wanted.map(({ hash, folderMillis }) => `${hash} ${folderMillis}`);
  const is = rows.map(({ hash, created_at: at }) => `${hash} ${at}`);
  return said.join() === is.join()
    ? []
    : [{ table: "__drizzle_migrations", key: "", what: "other migrations than there are" }];
}
