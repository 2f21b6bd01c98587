import { eq } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { merges } from "./schema/configurations.ts";

/** What an operator merged straight into a configuration, oldest first, and why. */
export async function listMergedInto(connection: Connection, configuration: string) {
  return connection
    .select({ id: merges.configuration, at: merges.at, reason: merges.reason })
    .from(merges)
    .where(eq(merges.into, configuration))
    .orderBy(merges.at, merges.configuration);
}
