import { desc, eq, sql } from "drizzle-orm";
import { newestWords } from "./configurations.ts";
import type { Connection } from "./database.ts";
import type { Basis, Pooled } from "./entries.ts";
import { configurationRevisions, configurations, settings } from "./schema/configurations.ts";
import { pooled, spreads } from "./schema/standings.ts";
import type { StoredSpread } from "./spreads.ts";

/** A basis of an entry as it stands, with the spread between laboratories it was pooled with. */
export interface BasisFigures {
  readonly pooled: Pooled;
  readonly spread: StoredSpread;
}

/** The newest figures of an entry on each basis that ever had one. */
export async function findBases(connection: Connection, entry: string): Promise<ReadonlyMap<Basis, BasisFigures>> {
  const rows = await connection
    .select({ pooled, spread: spreads })
    .from(pooled)
    .innerJoin(spreads, eq(spreads.id, pooled.spread))
    .where(
      sql`${pooled.entry} = ${entry} AND ${pooled.seq} = (SELECT max(p.seq) FROM pooled p WHERE p.entry = ${entry} AND p.basis = ${pooled.basis})`,
    );
  return new Map(rows.map((row) => [row.pooled.basis, row]));
}

/** What the maker or builder states of a setting, and the words of its configuration, as JSON. */
export async function findStated(connection: Connection, setting: number) {
  const [row] = await connection
    .select({ statedJson: settings.statedJson, configurationJson: configurationRevisions.json })
    .from(settings)
    .innerJoin(configurations, eq(configurations.id, settings.configuration))
    .innerJoin(configurationRevisions, newestWords)
    .where(eq(settings.id, setting))
    .orderBy(desc(configurationRevisions.revision))
    .limit(1);
  return row!;
}
