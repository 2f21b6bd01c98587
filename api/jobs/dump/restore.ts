import type { Database } from "../../../db/database.ts";
import type { Source } from "../../../db/dump/dump.ts";
import { compareDerived, loadDump } from "../../../db/dump/load-dump.ts";
import { rebuild } from "../rebuild.ts";

/** What a restore did. `differing` names derived tables that came out otherwise than the dump has them. */
export interface Restored {
  readonly rows: number;
  readonly differing: readonly string[];
}

/**
 * Fills an empty, migrated database from a dump, and makes the derived tables by a rebuild.
 * @param db the same database as `into`
 */
export async function restore(folder: string, into: Source, db: Database): Promise<Restored> {
  const rows = await loadDump(folder, into);
  await rebuild(db);
  return { rows, differing: await compareDerived(folder, into) };
}
