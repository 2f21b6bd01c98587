import { sql } from "drizzle-orm";
import type { Connection } from "./database.ts";

/** Results of one method version of trials' newest revisions, by chance, as many as are wanted. */
export async function listSample(connection: Connection, methodVersion: string, count: number) {
  return connection.all<{ trial: string; json: string }>(
    sql`SELECT s.trial, s.json FROM results s WHERE s.method_version = ${methodVersion}
      AND s.revision = (SELECT max(r.revision) FROM trial_revisions r WHERE r.trial = s.trial)
      ORDER BY random() LIMIT ${count}`,
  );
}
