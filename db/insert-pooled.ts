import type { SQL } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Connection } from "./database.ts";
import { expectation, expectedAdoption, expectedPooledSeq, expectedSpread } from "./events.ts";
import { pooled } from "./schema/standings.ts";

/** A pooled figure before it has the seq of the event that made it. */
export type NewPooled = Omit<typeof pooled.$inferInsert, "seq">;

/** New figures of entries, with what they were made from: stale where another writer came first. */
export interface Repooled {
  readonly rows: readonly NewPooled[];
  /** The newest pooled seq of each entry when its members were read; 0 before the first. */
  readonly readSeqs: readonly { readonly entry: string; readonly seq: number }[];
  readonly readSpread: number;
  /** The place of the method version that decided which results count. */
  readonly readAdoption: number;
}

/** The compare half: that every entry, the spread and the adopted method still are as they were read. */
export function poolExpectations(
  connection: Connection,
  { readSeqs, readSpread, readAdoption }: Repooled,
): BatchItem<"sqlite">[] {
  return [
    ...readSeqs.map(({ entry, seq }) => expectation(connection, expectedPooledSeq(entry, seq), `pooled ${entry}`)),
    expectation(connection, expectedSpread(readSpread), "spread"),
    expectation(connection, expectedAdoption(readAdoption), "method"),
  ];
}

/** The swap half; `seq` is that of the event that changed them. */
export function poolRows(connection: Connection, { rows }: Repooled, seq: SQL<number>): BatchItem<"sqlite">[] {
  return rows.map((row) => connection.insert(pooled).values({ ...row, seq }));
}
