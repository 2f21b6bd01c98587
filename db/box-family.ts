import { and, eq, inArray, isNull } from "drizzle-orm";
import { newestWords } from "./configurations.ts";
import type { Connection } from "./database.ts";
import { configurationRevisions, configurations, merges, settings } from "./schema/configurations.ts";
import { entries, pooled, standings } from "./schema/standings.ts";

/** The entries that stand for any of several configurations on basis `all`, with their figures and words. */
export async function listEntriesOf(connection: Connection, ids: readonly string[]) {
  return connection
    .select({
      configuration: configurations.id,
      title: configurationRevisions.title,
      setting: settings.label,
      band: entries.band,
      invented: entries.invented,
      pooled,
    })
    .from(configurations)
    .innerJoin(configurationRevisions, newestWords)
    .innerJoin(settings, eq(settings.configuration, configurations.id))
    .innerJoin(entries, eq(entries.setting, settings.id))
    .innerJoin(standings, and(eq(standings.entry, entries.id), eq(standings.basis, "all")))
    .innerJoin(pooled, and(eq(pooled.entry, standings.entry), eq(pooled.basis, "all"), eq(pooled.seq, standings.seq)))
    .where(inArray(configurations.id, [...ids]))
    .orderBy(entries.band, settings.folded, entries.id);
}

const MOST = 200;

/** Configurations that descend from one, or that it descends from, in one step: those their makers said are changed from it. */
export async function listRelatives(connection: Connection, id: string, parent: string | null): Promise<string[]> {
  const rows = await connection
    .select({ id: configurations.id })
    .from(configurations)
    .leftJoin(merges, eq(merges.configuration, configurations.id))
    .where(and(isNull(merges.into), inArray(configurations.derivedFrom, parent === null ? [id] : [id, parent])))
    .orderBy(configurations.id)
    .limit(MOST);
  return [...rows.map((row) => row.id), ...(parent === null ? [] : [parent])];
}
