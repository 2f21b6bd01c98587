import { and, count, desc, eq, isNotNull, lt, lte, type SQL, sql } from "drizzle-orm";
import { newestWords } from "./configurations.ts";
import type { Connection } from "./database.ts";
import type { Basis, Entry } from "./entries.ts";
import { packed, unpack } from "./packed-rows.ts";
import { configurationRevisions, configurations, settings } from "./schema/configurations.ts";
import { entries, events, pooled, standings } from "./schema/standings.ts";

export type Band = Entry["band"];

/** The seq of the newest event: two answers between which it did not move are the same. 0 before the first. */
export async function findLastSeq(connection: Connection): Promise<number> {
  const [row] = await connection.select({ seq: sql<number | null>`max(${events.seq})` }).from(events);
  return row?.seq ?? 0;
}

/** The newest seq at an instant, for a past state; 0 before the first event. */
export async function findSeqAt(connection: Connection, instant: string): Promise<number> {
  const [row] = await connection
    .select({ seq: sql<number | null>`max(${events.seq})` })
    .from(events)
    .where(sql`${events.at} <= ${instant}`);
  return row?.seq ?? 0;
}

/** What whole buyers paid, as a configuration's words tell it. */
const wholeCost = (what: "value" | "currency") =>
  sql<
    number | string | null
  >`(SELECT c.value ->> ${`$.money.${what}`} FROM json_each(${configurationRevisions.json}, '$.costs') c WHERE c.value ->> '$.item' = 'whole' ORDER BY c.key LIMIT 1)`;

const figureFields = {
  entry: pooled.entry,
  basis: pooled.basis,
  seq: pooled.seq,
  band: entries.band,
  invented: entries.invented,
  kind: configurations.kind,
  configuration: configurations.id,
  cost: sql<number | null>`${wholeCost("value")}`,
  currency: sql<string | null>`${wholeCost("currency")}`,
  cadrM3PerH: pooled.cadrM3PerH,
  u: pooled.u,
  dof: pooled.dof,
  low: pooled.low,
  high: pooled.high,
  relativeU: pooled.relativeU,
  predictionU: pooled.predictionU,
  predictionDof: pooled.predictionDof,
  predictionRelativeU: pooled.predictionRelativeU,
  trials: pooled.trials,
  rooms: pooled.rooms,
  unpaired: pooled.unpaired,
  aerosolsJson: pooled.aerosolsJson,
  noiseDb: pooled.noiseDb,
  noiseU: pooled.noiseU,
  noiseDof: pooled.noiseDof,
  powerW: pooled.powerW,
};

/** What an entry stands for on a basis; `reworded` is the event that last changed its words, where that is news. */
export type StandingFigures = Awaited<ReturnType<typeof figures>>[number] & { readonly reworded?: number };

/** Where pooled rows find what they are figures of. */
function figures(connection: Connection, revision: SQL = newestWords) {
  return connection
    .select(figureFields)
    .from(pooled)
    .innerJoin(entries, eq(entries.id, pooled.entry))
    .innerJoin(settings, eq(settings.id, entries.setting))
    .innerJoin(configurations, eq(configurations.id, settings.configuration))
    .innerJoin(configurationRevisions, revision);
}

/** How many entries stand in a band on a basis. */
export async function countStandings(connection: Connection, band: Band, basis: Basis): Promise<number> {
  const [row] = await connection
    .select({ count: count() })
    .from(standings)
    .where(and(eq(standings.band, band), eq(standings.basis, basis)));
  return row?.count ?? 0;
}

/** The standing figures of a band on a basis, strongest first, some at a time: those after the one named. */
export async function listStandings(
  connection: Connection,
  band: Band,
  basis: Basis,
  after: { readonly cadrM3PerH: number; readonly entry: string } | null,
  limit: number,
): Promise<StandingFigures[]> {
  const { entry: _, ...others } = figureFields;
  const names = Object.keys(others);
  const further = after
    ? sql`AND s.cadr_m3_per_h <= ${after.cadrM3PerH} AND (s.cadr_m3_per_h < ${after.cadrM3PerH} OR s.entry > ${after.entry})`
    : sql``;
  const found = await connection.all<{
    entry: string;
    row: string;
  }>(sql`SELECT s.entry AS entry, ${packed(Object.values(others))} AS row
    FROM (SELECT * FROM standings s WHERE s.band = ${band} AND s.basis = ${basis} ${further}
      ORDER BY s.cadr_m3_per_h DESC, s.entry LIMIT ${limit}) s
    JOIN ${pooled} ON ${pooled.entry} = s.entry AND ${pooled.basis} = s.basis AND ${pooled.seq} = s.seq
    JOIN ${entries} ON ${entries.id} = s.entry
    JOIN ${settings} ON ${settings.id} = ${entries.setting}
    JOIN ${configurations} ON ${configurations.id} = ${settings.configuration}
    JOIN ${configurationRevisions} ON ${newestWords}
    ORDER BY s.cadr_m3_per_h DESC, s.entry`);
  return found.map(({ entry, row }) => {
    const values = unpack(row);
    const figures = Object.fromEntries(names.map((name, i) => [name, values[i]]));
    return { entry, ...figures, invented: figures.invented === 1 } as unknown as StandingFigures;
  });
}

/** What events after a seq changed of a band on a basis: newest figures, withdrawn ones without a value, and new words. */
export async function listChangedStandings(connection: Connection, band: Band, basis: Basis, afterSeq: number) {
  const newest = sql`${pooled.seq} = (SELECT max(p.seq) FROM pooled p WHERE p.entry = ${pooled.entry} AND p.basis = ${pooled.basis})`;
  const here = and(eq(entries.band, band), eq(pooled.basis, basis));
  // The events since are few: named first, so that no plan begins with all entries there are.
  const pooledRows = sql`pooled.rowid IN (SELECT rowid FROM pooled WHERE seq > ${afterSeq})`;
  const rewordings = sql`FROM events WHERE seq > ${afterSeq} AND kind = 'configuration-revised'`;
  const reworded = sql`${configurations.id} IN (SELECT subject ${rewordings})`;
  const [last, pooledSince, rewordedSince] = await connection.batch([
    connection.select({ seq: sql<number | null>`max(${events.seq})` }).from(events),
    figures(connection).where(and(pooledRows, here, newest)),
    connection
      .select({
        ...figureFields,
        reworded: sql<number>`(SELECT max(seq) ${rewordings} AND subject = ${configurations.id})`,
      })
      .from(configurations)
      .innerJoin(settings, eq(settings.configuration, configurations.id))
      .innerJoin(entries, eq(entries.setting, settings.id))
      .innerJoin(pooled, and(eq(pooled.entry, entries.id), newest))
      .innerJoin(configurationRevisions, newestWords)
      .where(and(reworded, here)),
  ]);
  const changed: StandingFigures[] = [...pooledSince, ...rewordedSince];
  return { seq: last[0]?.seq ?? 0, changed };
}

/** A state that was: the seq of the last event then, and the instant, by which words are told apart. */
export interface PastState {
  readonly seq: number;
  readonly instant: string;
}

/** Joins a configuration with the words it had then. */
export const wordsAt = ({ instant }: PastState): SQL =>
  sql`${configurationRevisions.configuration} = ${configurations.id} AND ${configurationRevisions.revision} = (SELECT max(r.revision) FROM ${configurationRevisions} r WHERE r.configuration = ${configurations.id} AND r.at <= ${instant})`;

/** The figures of a band and basis as they stood then. */
export async function listPastStandings(connection: Connection, band: Band, basis: Basis, past: PastState) {
  const newestThen = sql`${pooled.seq} = (SELECT max(p.seq) FROM pooled p WHERE p.entry = ${pooled.entry} AND p.basis = ${pooled.basis} AND p.seq <= ${past.seq})`;
  return figures(connection, wordsAt(past)).where(
    and(eq(entries.band, band), eq(pooled.basis, basis), newestThen, isNotNull(pooled.cadrM3PerH)),
  );
}

/** What a board shows came last from one of these: a figure that was pooled, or taken away, or words that changed. */
export async function findLastChange(connection: Connection, band: Band, basis: Basis): Promise<number> {
  return findPastChange(connection, band, basis, { seq: Number.MAX_SAFE_INTEGER, instant: "" });
}

/** The last event until then that changed what a band and basis show; 0 where none did. */
export async function findPastChange(
  connection: Connection,
  band: Band,
  basis: Basis,
  past: PastState,
): Promise<number> {
  const here = and(eq(entries.band, band), eq(pooled.basis, basis), lte(pooled.seq, past.seq));
  const [changed, reworded] = await connection.batch([
    connection
      .select({ seq: pooled.seq })
      .from(pooled)
      .innerJoin(entries, eq(entries.id, pooled.entry))
      .where(here)
      .orderBy(desc(pooled.seq))
      .limit(1),
    connection
      .select({ seq: sql<number | null>`max(${events.seq})` })
      .from(events)
      .innerJoin(settings, eq(settings.configuration, events.subject))
      .innerJoin(entries, eq(entries.setting, settings.id))
      .innerJoin(pooled, and(eq(pooled.entry, entries.id), lt(pooled.seq, events.seq)))
      .where(and(eq(events.kind, "configuration-revised"), lte(events.seq, past.seq), here)),
  ]);
  return Math.max(changed[0]?.seq ?? 0, reworded[0]?.seq ?? 0);
}
