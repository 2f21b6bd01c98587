import { and, desc, eq, inArray } from "drizzle-orm";
import { newestWords } from "./configurations.ts";
import type { Connection, Database } from "./database.ts";
import { findMovedSetting } from "./moves.ts";
import { configurationRevisions, configurations, settings } from "./schema/configurations.ts";
import { entries, pooled, standings } from "./schema/standings.ts";
import { StoreError } from "./store-error.ts";

export type Entry = typeof entries.$inferSelect;
export type Pooled = typeof pooled.$inferSelect;
export type Basis = Pooled["basis"];

/** Joins a standing with the pooled row it stands with. */
export const standingFigure = and(
  eq(pooled.entry, standings.entry),
  eq(pooled.basis, standings.basis),
  eq(pooled.seq, standings.seq),
)!;

/** The newest pooled row of an entry, null before its first. */
export async function findPooled(connection: Connection, entry: string): Promise<Pooled | null> {
  const [row] = await connection
    .select()
    .from(pooled)
    .where(and(eq(pooled.entry, entry), eq(pooled.basis, "all")))
    .orderBy(desc(pooled.seq))
    .limit(1);
  return row ?? null;
}

/** The figures that entries stand with over all trials; those where none counts are left out. */
export async function listCurrentPooled(
  connection: Connection,
  ids: readonly string[],
): Promise<ReadonlyMap<string, Pooled>> {
  if (ids.length === 0) return new Map();
  const rows = await connection
    .select({ pooled })
    .from(standings)
    .innerJoin(pooled, standingFigure)
    .where(and(inArray(standings.entry, [...ids]), eq(standings.basis, "all")));
  return new Map(rows.map((row) => [row.pooled.entry, row.pooled]));
}

/** Where the trials of an entry whose configuration was merged count today, null where it was not. */
export async function findMovedEntry(connection: Connection, entry: string): Promise<string | null> {
  const [from] = await connection.select().from(entries).where(eq(entries.id, entry));
  if (!from) return null;
  const setting = await findMovedSetting(connection, from.setting);
  if (setting === from.setting) return null;
  const [to] = await connection
    .select({ id: entries.id })
    .from(entries)
    .where(and(eq(entries.setting, setting), eq(entries.band, from.band), eq(entries.invented, from.invented)));
  return to?.id ?? null;
}

const described = {
  id: entries.id,
  settingId: entries.setting,
  band: entries.band,
  invented: entries.invented,
  createdAt: entries.createdAt,
  setting: settings.label,
  configuration: configurations.id,
  kind: configurations.kind,
  title: configurationRevisions.title,
};

export type DescribedEntry = Awaited<ReturnType<typeof listDescribedEntries>>[number];

/** Entries with the words a reader knows them by: all of one configuration. */
export async function listDescribedEntries(db: Database, by: { configuration: string } | { entry: string }) {
  return db.read
    .select(described)
    .from(entries)
    .innerJoin(settings, eq(settings.id, entries.setting))
    .innerJoin(configurations, eq(configurations.id, settings.configuration))
    .innerJoin(configurationRevisions, newestWords)
    .where("entry" in by ? eq(entries.id, by.entry) : eq(configurations.id, by.configuration))
    .orderBy(settings.id, entries.band, entries.invented);
}

/** One entry with its words. @throws StoreError "not-found" */
export async function findEntry(db: Database, id: string): Promise<DescribedEntry> {
  const [row] = await listDescribedEntries(db, { entry: id });
  if (!row) throw new StoreError("not-found", `No entry ${id} is stored.`);
  return row;
}
