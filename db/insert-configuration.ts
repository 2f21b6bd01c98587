import { eq } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Connection } from "./database.ts";
import { event, expectation, expectedUnmerged } from "./events.ts";
import { configurationRevisions, configurations, configurationTraits, settings } from "./schema/configurations.ts";
import { sealed } from "./seal.ts";

type Row<T extends { $inferInsert: unknown }> = T["$inferInsert"];

/** A configuration that no one sent before. */
export interface NewConfiguration {
  readonly configuration: Row<typeof configurations>;
  readonly revision: Row<typeof configurationRevisions>;
  /** What it is found alike by. */
  readonly traits: readonly string[];
}

export interface NewSetting {
  readonly configuration: string;
  readonly label: string;
  readonly folded: string;
  readonly statedJson: string;
  readonly at: string;
}

/** The rows that a new configuration, or new settings of an old one, add. */
export function configurationRows(
  connection: Connection,
  it: { created: NewConfiguration | null; newSettings: readonly NewSetting[]; submitter: string; at: string },
): BatchItem<"sqlite">[] {
  const { created, newSettings, submitter: actor, at } = it;
  const rows = newSettings.flatMap((row) => [
    event(connection, { at, kind: "setting-added", subject: row.configuration, actor, reason: row.label }),
    connection.insert(settings).values(sealed(settings, row)),
  ]);
  if (!created) return rows;
  return [
    event(connection, { at, kind: "configuration-stored", subject: created.revision.configuration, actor }),
    connection.insert(configurations).values(sealed(configurations, created.configuration)),
    connection.insert(configurationRevisions).values(sealed(configurationRevisions, created.revision)),
    ...traitRows(connection, created.revision.configuration, created.traits),
    ...rows,
  ];
}

/** Stores a configuration sent on its own; nothing is written where all of it is known. */
export async function insertConfiguration(
  connection: Connection,
  it: Parameters<typeof configurationRows>[1],
): Promise<void> {
  const [first, ...rest] = configurationRows(connection, it);
  if (first) await connection.batch([first, ...unmerged(connection, it.newSettings), ...rest]);
}

/** Corrects the words of a configuration: another revision, with any settings that came with it. */
export async function insertConfigurationRevision(
  connection: Connection,
  it: {
    revision: Row<typeof configurationRevisions>;
    traits: readonly string[];
    newSettings: readonly NewSetting[];
    actor: string;
  },
): Promise<void> {
  const { revision, traits, newSettings, actor } = it;
  const { configuration, at } = revision;
  await connection.batch([
    event(connection, { at, kind: "configuration-revised", subject: configuration, actor }),
    expectation(connection, expectedUnmerged(configuration), "not merged"),
    connection.insert(configurationRevisions).values(sealed(configurationRevisions, revision)), // its number is taken where another came first
    connection.delete(configurationTraits).where(eq(configurationTraits.configuration, configuration)),
    ...traitRows(connection, configuration, traits),
    ...configurationRows(connection, { created: null, newSettings, submitter: actor, at }),
  ]);
}

/** A setting must not be added to what was merged since it was read: no trial of it would count. */
function unmerged(connection: Connection, newSettings: readonly NewSetting[]): BatchItem<"sqlite">[] {
  const ids = [...new Set(newSettings.map(({ configuration }) => configuration))];
  return ids.map((id) => expectation(connection, expectedUnmerged(id), "not merged"));
}

function traitRows(connection: Connection, configuration: string, traits: readonly string[]): BatchItem<"sqlite">[] {
  if (traits.length === 0) return [];
  return [connection.insert(configurationTraits).values(traits.map((trait) => ({ trait, configuration })))];
}
