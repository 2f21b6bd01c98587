import { and, desc, eq, inArray, or, sql } from "drizzle-orm";
import type { Connection, Database } from "./database.ts";
import { configurationRevisions, configurations, merges, settings } from "./schema/configurations.ts";
import { trials } from "./schema/trials.ts";
import { StoreError } from "./store-error.ts";

export interface StoredConfiguration {
  readonly id: string;
  readonly kind: "user_built" | "commercial";
  readonly derivedFrom: string | null;
  readonly mergedInto: string | null;
  readonly identitySha256: string;
  readonly revision: number;
  readonly title: string;
  readonly json: string;
  readonly sha256: string;
  readonly submitter: string;
  readonly createdAt: string;
}

export type StoredSetting = typeof settings.$inferSelect;

const fields = {
  id: configurations.id,
  kind: configurations.kind,
  derivedFrom: configurations.derivedFrom,
  mergedInto: merges.into,
  identitySha256: configurations.identitySha256,
  revision: configurationRevisions.revision,
  title: configurationRevisions.title,
  json: configurationRevisions.json,
  sha256: configurationRevisions.sha256,
  submitter: configurations.submitter,
  createdAt: configurations.createdAt,
};

/** Joins a configuration with its newest words. */
export const newestWords = and(
  eq(configurationRevisions.configuration, configurations.id),
  sql`${configurationRevisions.revision} = (SELECT max(r.revision) FROM ${configurationRevisions} r WHERE r.configuration = ${configurations.id})`,
)!;

function select(connection: Connection) {
  return connection
    .select(fields)
    .from(configurations)
    .innerJoin(configurationRevisions, newestWords)
    .leftJoin(merges, eq(merges.configuration, configurations.id));
}

/** One configuration with its newest words. @throws StoreError "not-found" */
export async function findConfiguration(connection: Connection, id: string): Promise<StoredConfiguration> {
  const [row] = await select(connection).where(eq(configurations.id, id));
  if (!row) throw new StoreError("not-found", `No configuration ${id} is stored.`);
  return row;
}

/** The configuration with these parts, null where there is none yet. */
export async function findConfigurationByIdentity(
  connection: Connection,
  identitySha256: string,
): Promise<StoredConfiguration | null> {
  const [row] = await select(connection).where(eq(configurations.identitySha256, identitySha256));
  return row ?? null;
}

/** Configurations whose title holds the text, newest first; merged ones are left out. */
export async function listConfigurations(db: Database, text: string, limit: number): Promise<StoredConfiguration[]> {
  const exact = text.replaceAll(/[\\%_]/g, (c) => `\\${c}`);
  const pattern = `%${exact}%`;
  return select(db.read)
    .where(
      and(
        sql`${merges.into} IS NULL`,
        text === ""
          ? undefined
          : or(
              sql`${configurationRevisions.title} LIKE ${pattern} ESCAPE '\\'`,
              sql`${configurations.id} LIKE ${exact} ESCAPE '\\'`,
            ),
      ),
    )
    .orderBy(desc(configurations.createdAt), configurations.id)
    .limit(limit);
}

/** The settings of several configurations, each in the order they were added. */
export async function listSettingsOf(
  connection: Connection,
  ids: readonly string[],
): Promise<ReadonlyMap<string, StoredSetting[]>> {
  const rows = await connection
    .select()
    .from(settings)
    .where(inArray(settings.configuration, [...ids]))
    .orderBy(settings.id);
  return Map.groupBy(rows, ({ configuration }) => configuration);
}

/** The settings of a configuration, in the order they were added. */
export async function listSettings(connection: Connection, configuration: string): Promise<StoredSetting[]> {
  return connection.select().from(settings).where(eq(settings.configuration, configuration)).orderBy(settings.id);
}

/** Those among several configurations whose every test is invented; one without a test is none of them. */
export async function listInvented(connection: Connection, ids: readonly string[]): Promise<ReadonlySet<string>> {
  const rows = await connection
    .select({ id: trials.configuration })
    .from(trials)
    .where(inArray(trials.configuration, [...ids]))
    .groupBy(trials.configuration)
    .having(sql`min(${trials.invented}) = 1`);
  return new Set(rows.map(({ id }) => id));
}
