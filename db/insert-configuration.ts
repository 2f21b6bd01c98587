import type { BatchItem } from "drizzle-orm/batch";
import type { Connection } from "./database.ts";
import { event } from "./events.ts";
import { configurationRevisions, configurations, settings } from "./schema/configurations.ts";

type Row<T extends { $inferInsert: unknown }> = T["$inferInsert"];

/** A configuration that no one sent before. */
export interface NewConfiguration {
  readonly configuration: Row<typeof configurations>;
  readonly revision: Row<typeof configurationRevisions>;
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
    connection.insert(settings).values(row),
  ]);
  if (!created) return rows;
  return [
    event(connection, { at, kind: "configuration-stored", subject: created.revision.configuration, actor }),
    connection.insert(configurations).values(created.configuration),
    connection.insert(configurationRevisions).values(created.revision),
    ...rows,
  ];
}

/** Stores a configuration sent on its own; nothing is written where all of it is known. */
export async function insertConfiguration(
  connection: Connection,
  it: Parameters<typeof configurationRows>[1],
): Promise<void> {
  const [first, ...rest] = configurationRows(connection, it);
  if (first) await connection.batch([first, ...rest]);
}
