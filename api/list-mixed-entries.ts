import type { Database } from "../db/database.ts";
import { findEntry } from "../db/entries.ts";
import { poolByAerosol } from "./pool-by-aerosol.ts";
import type { LeaderboardOut, LeaderboardQuery } from "./wire/leaderboard.ts";

/** Enough to follow; how many there are stands beside them. */
export const MOST_MIXED = 5;

/**
 * Entries that a list for one aerosol leaves out because their trials used others too, with their own figure for it. There is
 * none of the past or of some of the trials only: it is pooled on reading, from all that count now.
 */
export async function listMixedEntries(
  db: Database,
  ids: readonly string[],
  { aerosol, basis, as_of: asOf }: Pick<LeaderboardQuery, "aerosol" | "basis" | "as_of">,
  unit: string,
): Promise<LeaderboardOut["mixed"]> {
  return Promise.all(
    ids.map(async (id) => {
      const entry = await findEntry(db, id);
      const { configuration, title, kind, setting, invented } = entry;
      const isPooled = basis === "all" && asOf === undefined;
      const figures = isPooled ? await poolByAerosol(db.read, entry, unit) : [];
      const own = figures.find((each) => each.aerosol === aerosol);
      return { id, configuration: { id: configuration, title, kind }, setting, invented, own: own ?? null };
    }),
  );
}
