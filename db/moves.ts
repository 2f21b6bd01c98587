import { type SQL, sql } from "drizzle-orm";
import type { Connection } from "./database.ts";

/** Each setting itself and all that merges moved to it, however many steps: a table of `id` and `into_setting`. */
export function settingsMovedTo(settings: readonly (number | SQL)[]): SQL {
  const roots = sql.join(
    settings.map((id) => sql`(${id}, ${id})`),
    sql`, `,
  );
  return sql`(WITH RECURSIVE moved (id, into_setting) AS (VALUES ${roots} UNION SELECT m.from_setting, moved.into_setting FROM setting_moves m JOIN moved ON m.to_setting = moved.id) SELECT id, into_setting FROM moved)`;
}

/** The ids of a setting and of all that were moved to it: what `setting IN` is asked of. */
export function settingIdsMovedTo(setting: number | SQL): SQL {
  return sql`(SELECT id FROM ${settingsMovedTo([setting])})`;
}

/** The configuration itself and all that were merged into it. */
export function configurationsMergedInto(configuration: string): SQL {
  return sql`(WITH RECURSIVE merged (id) AS (SELECT ${configuration} UNION SELECT m.configuration FROM merges m JOIN merged ON m.merged_into = merged.id) SELECT id FROM merged)`;
}

/** Where the trials of a setting count today: itself, or where merges moved it. */
export async function findMovedSetting(connection: Connection, setting: number): Promise<number> {
  const rows = await connection.all<{ id: number }>(
    sql`WITH RECURSIVE moved (id, step) AS (SELECT ${setting}, 0 UNION SELECT m.to_setting, step + 1 FROM setting_moves m JOIN moved ON m.from_setting = moved.id) SELECT id FROM moved ORDER BY step DESC LIMIT 1`,
  );
  return Number(rows[0]!.id);
}
