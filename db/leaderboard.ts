import { and, desc, eq, sql } from "drizzle-orm";
import { newestWords } from "./configurations.ts";
import type { Database } from "./database.ts";
import { configurationRevisions, configurations, settings } from "./schema/configurations.ts";
import { entries, events, pooled, standings } from "./schema/standings.ts";

export interface LeaderboardQuery {
  readonly band: string;
  readonly kind: "user_built" | "commercial" | null;
  /** Keep entries that rest on a single trial without a paired natural run. */
  readonly unpaired: boolean;
  readonly limit: number;
  /** Where the page before ended. */
  readonly after: { readonly cadrM3PerH: number; readonly entry: string } | null;
}

export type Standing = Awaited<ReturnType<typeof listStandings>>[number];

const singleUnpaired = sql`(${pooled.trials} = 1 AND ${pooled.unpaired} = 1)`;

/** Entries in order of pooled CADR, strongest first. */
export async function listStandings(db: Database, query: LeaderboardQuery) {
  const { after } = query;
  return db.read
    .select({
      entry: standings.entry,
      invented: entries.invented,
      configuration: configurations.id,
      kind: configurations.kind,
      title: configurationRevisions.title,
      configurationJson: configurationRevisions.json,
      setting: settings.label,
      pooled,
    })
    .from(standings)
    .innerJoin(
      pooled,
      and(eq(pooled.entry, standings.entry), eq(pooled.basis, standings.basis), eq(pooled.seq, standings.seq)),
    )
    .innerJoin(entries, eq(entries.id, standings.entry))
    .innerJoin(settings, eq(settings.id, entries.setting))
    .innerJoin(configurations, eq(configurations.id, settings.configuration))
    .innerJoin(configurationRevisions, newestWords)
    .where(
      and(
        eq(standings.band, query.band),
        eq(standings.basis, "all"),
        query.kind ? eq(configurations.kind, query.kind) : undefined,
        query.unpaired ? undefined : sql`NOT ${singleUnpaired}`,
        after
          ? sql`(${standings.cadrM3PerH} < ${after.cadrM3PerH} OR (${standings.cadrM3PerH} = ${after.cadrM3PerH} AND ${standings.entry} > ${after.entry}))`
          : undefined,
      ),
    )
    .orderBy(desc(standings.cadrM3PerH), standings.entry)
    .limit(query.limit);
}

/** How many entries the list leaves out because they rest on one unpaired trial. */
export async function countSingleUnpaired(db: Database, band: string, kind: LeaderboardQuery["kind"]): Promise<number> {
  const [row] = await db.read
    .select({ count: sql<number>`count(*)` })
    .from(standings)
    .innerJoin(
      pooled,
      and(eq(pooled.entry, standings.entry), eq(pooled.basis, standings.basis), eq(pooled.seq, standings.seq)),
    )
    .innerJoin(entries, eq(entries.id, standings.entry))
    .innerJoin(settings, eq(settings.id, entries.setting))
    .innerJoin(configurations, eq(configurations.id, settings.configuration))
    .where(
      and(
        eq(standings.band, band),
        eq(standings.basis, "all"),
        kind ? eq(configurations.kind, kind) : undefined,
        singleUnpaired,
      ),
    );
  return row?.count ?? 0;
}

/** The instant of the last event that changed the list of a band, null where none has. */
export async function findLastChange(db: Database, band: string): Promise<string | null> {
  const [row] = await db.read
    .select({ at: events.at })
    .from(pooled)
    .innerJoin(entries, eq(entries.id, pooled.entry))
    .innerJoin(events, eq(events.seq, pooled.seq))
    .where(and(eq(pooled.basis, "all"), eq(entries.band, band)))
    .orderBy(desc(pooled.seq))
    .limit(1);
  return row?.at ?? null;
}
