import { and, eq, inArray } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { standingFigure } from "./entries.ts";
import { settings } from "./schema/configurations.ts";
import { entries, pooled, standings } from "./schema/standings.ts";

export type StandingEntry = Awaited<ReturnType<typeof listStandingEntries>>[number];

/** The entries of several configurations where trials count, each with its figures over all of them. */
export async function listStandingEntries(connection: Connection, configurations: readonly string[]) {
  if (configurations.length === 0) return [];
  return connection
    .select({
      id: entries.id,
      configuration: settings.configuration,
      setting: settings.label,
      band: entries.band,
      invented: entries.invented,
      pooled,
    })
    .from(settings)
    .innerJoin(entries, eq(entries.setting, settings.id))
    .innerJoin(standings, and(eq(standings.entry, entries.id), eq(standings.basis, "all")))
    .innerJoin(pooled, standingFigure)
    .where(inArray(settings.configuration, [...configurations]))
    .orderBy(settings.id, entries.band, entries.invented);
}
