import { and, eq, inArray, isNull, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import { newestWords } from "./configurations.ts";
import type { Connection } from "./database.ts";
import { configurationRevisions, configurations, configurationTraits, merges } from "./schema/configurations.ts";

/** A trait that thousands have tells little: no more than this many that share it are looked at. */
const LOOKED_AT = 100;

/** Configurations that share traits with one, those with most first. */
function sharing(configuration: string, traits: readonly string[], limit: number) {
  const each = traits.map(
    (trait) =>
      sql`SELECT configuration FROM (SELECT configuration FROM configuration_traits WHERE trait = ${trait} AND configuration <> ${configuration} ORDER BY configuration LIMIT ${LOOKED_AT})`,
  );
  return sql`SELECT configuration, count(*) AS shared FROM (${sql.join(each, sql` UNION ALL `)}) GROUP BY configuration ORDER BY shared DESC, configuration LIMIT ${limit}`;
}

/** For each configuration the ids of those that may be similar, best first; merged ones may be among them. */
export async function listSharing(
  connection: Connection,
  of: readonly string[],
  limit: number,
): Promise<ReadonlyMap<string, readonly string[]>> {
  if (of.length === 0) return new Map();
  const rows = await connection
    .select()
    .from(configurationTraits)
    .where(inArray(configurationTraits.configuration, [...of]));
  const traits = [...Map.groupBy(rows, ({ configuration }) => configuration)];
  const [first, ...rest] = traits.map(([id, own]) =>
    connection.all<{ configuration: string }>(
      sharing(
        id,
        own.map(({ trait }) => trait),
        limit,
      ),
    ),
  );
  if (!first) return new Map();
  const found = await connection.batch([first, ...rest]);
  return new Map(traits.map(([id], i) => [id, found[i]!.map(({ configuration }) => configuration)]));
}

/** Configurations that share traits with words that are not stored, those with most first; merged ones may be among them. */
export async function listSharingTraits(
  connection: Connection,
  traits: readonly string[],
  limit: number,
): Promise<readonly string[]> {
  if (traits.length === 0) return [];
  const rows = await connection.all<{ configuration: string }>(sharing("", traits, limit));
  return rows.map(({ configuration }) => configuration);
}

/** The newest words of several configurations; merged ones are left out. */
export async function listWordsOf(connection: Connection, ids: readonly string[]) {
  return connection
    .select({ id: configurations.id, title: configurationRevisions.title, json: configurationRevisions.json })
    .from(configurations)
    .innerJoin(configurationRevisions, newestWords)
    .leftJoin(merges, eq(merges.configuration, configurations.id))
    .where(and(inArray(configurations.id, [...ids]), isNull(merges.into)));
}

/** The newest words of every configuration, merged ones too. */
export async function listAllWords(connection: Connection) {
  return connection
    .select({ id: configurations.id, json: configurationRevisions.json })
    .from(configurations)
    .innerJoin(configurationRevisions, newestWords)
    .orderBy(configurations.id);
}

const ROWS_A_STATEMENT = 5000; // 2 columns each

/** Puts traits in the place of all there are. */
export async function replaceTraits(
  connection: Connection,
  rows: readonly (typeof configurationTraits.$inferInsert)[],
): Promise<void> {
  const inserts: BatchItem<"sqlite">[] = [];
  for (let at = 0; at < rows.length; at += ROWS_A_STATEMENT) {
    inserts.push(connection.insert(configurationTraits).values(rows.slice(at, at + ROWS_A_STATEMENT)));
  }
  await connection.batch([connection.delete(configurationTraits), ...inserts]);
}
