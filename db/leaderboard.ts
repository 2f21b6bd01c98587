import { and, desc, eq, isNotNull, isNull, lt, lte, type SQL, sql } from "drizzle-orm";
import { newestWords } from "./configurations.ts";
import type { Connection } from "./database.ts";
import type { Basis, Entry } from "./entries.ts";
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
export type StandingFigures = Awaited<ReturnType<typeof listStandings>>[number] & { readonly reworded?: number };

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

/** The standing figures of all entries, by entry, some at a time: those after the one named. */
export async function listStandings(connection: Connection, after: { entry: string; basis: string }, limit: number) {
  return figures(connection)
    .innerJoin(
      standings,
      and(eq(standings.entry, pooled.entry), eq(standings.basis, pooled.basis), eq(standings.seq, pooled.seq)),
    )
    .where(sql`(${standings.entry}, ${standings.basis}) > (${after.entry}, ${after.basis})`)
    .orderBy(standings.entry, standings.basis)
    .limit(limit);
}

/** All that events after a seq changed of what stands: newest figures, withdrawn ones without a value, and new words. */
export async function listChangedStandings(connection: Connection, afterSeq: number) {
  const newest = sql`${pooled.seq} = (SELECT max(p.seq) FROM pooled p WHERE p.entry = ${pooled.entry} AND p.basis = ${pooled.basis})`;
  const [last, pooledSince, rewordedSince] = await connection.batch([
    connection.select({ seq: sql<number | null>`max(${events.seq})` }).from(events),
    figures(connection).where(and(sql`${pooled.seq} > ${afterSeq}`, newest)),
    connection
      .select({ ...figureFields, reworded: sql<number>`max(${events.seq})` })
      .from(events)
      .innerJoin(configurations, eq(configurations.id, events.subject))
      .innerJoin(settings, eq(settings.configuration, configurations.id))
      .innerJoin(entries, eq(entries.setting, settings.id))
      .innerJoin(pooled, and(eq(pooled.entry, entries.id), newest))
      .innerJoin(configurationRevisions, newestWords)
      .where(and(sql`${events.seq} > ${afterSeq}`, eq(events.kind, "configuration-revised")))
      .groupBy(pooled.entry, pooled.basis),
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

/** The last event that took a figure away, by band and basis: it shows in no standing. */
export async function listLastRemovals(connection: Connection) {
  return connection
    .select({ band: entries.band, basis: pooled.basis, seq: sql<number>`max(${pooled.seq})` })
    .from(pooled)
    .innerJoin(entries, eq(entries.id, pooled.entry))
    .where(isNull(pooled.cadrM3PerH))
    .groupBy(entries.band, pooled.basis);
}

/** The last event that changed the words of an entry, by band and basis. */
export async function listLastRewordings(connection: Connection) {
  return connection
    .select({ band: standings.band, basis: standings.basis, seq: sql<number>`max(${events.seq})` })
    .from(events)
    .innerJoin(settings, eq(settings.configuration, events.subject))
    .innerJoin(entries, eq(entries.setting, settings.id))
    .innerJoin(standings, eq(standings.entry, entries.id))
    .where(eq(events.kind, "configuration-revised"))
    .groupBy(standings.band, standings.basis);
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
