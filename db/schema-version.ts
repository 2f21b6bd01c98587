import { sql } from "drizzle-orm";
import type { Database } from "./database.ts";

/** How many migrations the database has seen: 0 where it was never migrated. */
export async function findSchemaVersion(db: Database): Promise<number> {
  const tables = await db.read.all<{ count: number }>(
    sql`SELECT count(*) AS count FROM sqlite_master WHERE type = 'table' AND name = '__drizzle_migrations'`,
  );
  if (tables[0]?.count !== 1) return 0;
  const rows = await db.read.all<{ count: number }>(sql`SELECT count(*) AS count FROM __drizzle_migrations`);
  return rows[0]?.count ?? 0;
}
