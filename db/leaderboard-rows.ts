import { and, eq, inArray, type SQL } from "drizzle-orm";
import { newestWords } from "./configurations.ts";
import type { Connection } from "./database.ts";
import type { Basis } from "./entries.ts";
import { configurationRevisions, configurations, settings } from "./schema/configurations.ts";
import { entries, events, pooled } from "./schema/standings.ts";

export type StandingRow = Awaited<ReturnType<typeof listRows>>[number];

/** The rows of one page with their words and whole pooled figures, in no order. `seqs` are those of the figures shown. */
export async function listRows(
  connection: Connection,
  basis: Basis,
  shown: readonly { readonly entry: string; readonly seq: number }[],
  words: SQL = newestWords,
) {
  const seqs = new Map(shown.map(({ entry, seq }) => [entry, seq]));
  const rows = await connection
    .select({
      invented: entries.invented,
      configuration: configurations.id,
      kind: configurations.kind,
      title: configurationRevisions.title,
      configurationJson: configurationRevisions.json,
      setting: settings.label,
      pooled,
    })
    .from(pooled)
    .innerJoin(entries, eq(entries.id, pooled.entry))
    .innerJoin(settings, eq(settings.id, entries.setting))
    .innerJoin(configurations, eq(configurations.id, settings.configuration))
    .innerJoin(configurationRevisions, words)
    .where(
      and(
        inArray(pooled.entry, [...seqs.keys()]),
        eq(pooled.basis, basis),
        inArray(pooled.seq, [...new Set(seqs.values())]),
      ),
    );
  return rows.filter((row) => seqs.get(row.pooled.entry) === row.pooled.seq);
}

/** When an event happened; null for none. */
export async function findInstant(connection: Connection, seq: number): Promise<string | null> {
  const [row] = await connection.select({ at: events.at }).from(events).where(eq(events.seq, seq));
  return row?.at ?? null;
}
