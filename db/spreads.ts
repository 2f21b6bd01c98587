import { and, desc, eq, gt, gte, ne } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { standingFigure } from "./entries.ts";
import { event, expectation, expectedSpread, newestSeqOf } from "./events.ts";
import { entries, pooled, spreads, standings } from "./schema/standings.ts";
import { sealed } from "./seal.ts";

export type StoredSpread = typeof spreads.$inferSelect;

/** The spread between laboratories that holds now. */
export async function findSpread(connection: Connection): Promise<StoredSpread> {
  const [row] = await connection.select().from(spreads).orderBy(desc(spreads.id)).limit(1);
  if (!row) throw new Error("the schema brings a first spread"); // never removed: the table is insert-only
  return row;
}

/** Entries with the figure that stands on the basis of all trials. */
function standing(connection: Connection) {
  return connection
    .select({ entry: entries.id, setting: entries.setting })
    .from(standings)
    .innerJoin(pooled, standingFigure)
    .innerJoin(entries, eq(entries.id, standings.entry))
    .orderBy(standings.entry);
}

/** Entries after an id whose figures still rest on another spread, in order of their ids. */
export async function listStale(connection: Connection, spread: number, after: string, limit: number) {
  return standing(connection)
    .where(and(eq(standings.basis, "all"), gt(standings.entry, after), ne(pooled.spread, spread)))
    .limit(limit);
}

/** Settings with an entry of real trials by at least so many submitters: where something of the spread can be seen. */
export async function listTelling(connection: Connection, submitters: number, limit: number): Promise<number[]> {
  const rows = await standing(connection)
    .where(and(eq(standings.basis, "all"), gte(pooled.submitters, submitters), eq(entries.invented, false)))
    .limit(limit);
  return [...new Set(rows.map(({ setting }) => setting))];
}

/** Another spread from now on, with the event that says so. It changes no figure by itself. */
export async function insertSpread(
  connection: Connection,
  row: Omit<typeof spreads.$inferInsert, "event"> & { readonly id: number },
): Promise<void> {
  const subject = `spread/${row.id}`;
  await connection.batch([
    event(connection, { at: row.at, kind: "spread-learnt", subject, actor: "registry" }),
    expectation(connection, expectedSpread(row.id - 1), "spread"),
    connection.insert(spreads).values({ ...sealed(spreads, row), event: newestSeqOf(subject) }),
  ]);
}
