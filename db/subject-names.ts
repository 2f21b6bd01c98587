import { eq, inArray } from "drizzle-orm";
import { newestWords } from "./configurations.ts";
import type { Connection } from "./database.ts";
import { configurationRevisions, configurations, settings } from "./schema/configurations.ts";
import { submitters, words } from "./schema/identity.ts";
import { trials } from "./schema/trials.ts";

/** What people call trials, configurations and submitters, by id: a cleaner's title and setting, a handle. */
export async function nameSubjects(connection: Connection, ids: readonly string[]): Promise<Map<string, string>> {
  const [tried, described, people] = await connection.batch([
    connection
      .select({ id: trials.id, title: configurationRevisions.title, setting: settings.label })
      .from(trials)
      .innerJoin(settings, eq(settings.id, trials.setting))
      .innerJoin(configurations, eq(configurations.id, trials.configuration))
      .innerJoin(configurationRevisions, newestWords)
      .where(inArray(trials.id, [...ids])),
    connection
      .select({ id: configurations.id, title: configurationRevisions.title })
      .from(configurations)
      .innerJoin(configurationRevisions, newestWords)
      .where(inArray(configurations.id, [...ids])),
    connection
      .select({ id: submitters.id, handle: words.text })
      .from(submitters)
      .innerJoin(words, eq(words.digest, submitters.handleDigest))
      .where(inArray(submitters.id, [...ids])),
  ]);
  return new Map([
    ...tried.map(({ id, title, setting }): [string, string] => [id, [title, setting].filter(Boolean).join(", ")]),
    ...described.map(({ id, title }): [string, string] => [id, title]),
    ...people.flatMap(({ id, handle }): [string, string][] => (handle ? [[id, handle]] : [])),
  ]);
}
