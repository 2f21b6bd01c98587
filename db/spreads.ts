import { desc, type SQL, sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { spreads } from "./schema/standings.ts";

export type StoredSpread = typeof spreads.$inferSelect;

/** The spread between laboratories that holds now. */
export async function findSpread(connection: Connection): Promise<StoredSpread> {
  const [row] = await connection.select().from(spreads).orderBy(desc(spreads.id)).limit(1);
  if (!row) throw new Error("the schema brings a first spread"); // never removed: the table is insert-only
  return row;
}

/** That no other spread was learnt since: whoever pools with an old one starts over. */
export const expectedSpread = (id: number): SQL => sql`(SELECT max(id) FROM spreads) = ${id}`;
