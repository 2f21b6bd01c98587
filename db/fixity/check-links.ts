import { sql } from "drizzle-orm";
import type { Connection } from "../database.ts";
import type { Damage } from "./damage.ts";

/** A question to the database whose every row is a damage: what names it, in a column `key`. */
interface Check {
  readonly table: string;
  readonly what: string;
  readonly ask: string;
}

/** The numbers that the database gives are hashed in no row: each is held by what it must point at. */
const CHECKS: readonly Check[] = [
  {
    table: "events",
    what: "a line of the log is missing or stands twice",
    ask: "SELECT seq AS key FROM (SELECT seq, row_number() OVER (ORDER BY seq) AS n FROM events) WHERE seq <> n LIMIT 1",
  },
  {
    table: "settings",
    what: "its number is not in the row of numbers",
    ask: "SELECT id AS key FROM (SELECT id, row_number() OVER (ORDER BY id) AS n FROM settings) WHERE id <> n LIMIT 1",
  },
  {
    table: "trials",
    what: "it points at another setting than its record names",
    ask: `SELECT t.id AS key FROM trials t LEFT JOIN settings s ON s.id = t.setting
      LEFT JOIN trial_revisions r ON r.trial = t.id AND r.revision = 1
      WHERE s.configuration IS NOT t.configuration OR r.json IS NULL
        OR s.label IS NOT CASE WHEN json_valid(r.json) THEN r.json ->> '$.setting' END`,
  },
  {
    table: "setting_moves",
    what: "it moves to a setting of another name, or what was not merged",
    ask: `SELECT m.from_setting AS key FROM setting_moves m
      LEFT JOIN settings a ON a.id = m.from_setting LEFT JOIN settings b ON b.id = m.to_setting
      LEFT JOIN merges g ON g.configuration = a.configuration
      WHERE a.folded IS NOT b.folded OR g.merged_into IS NOT b.configuration`,
  },
  {
    table: "setting_moves",
    what: "a setting of a merged configuration moves nowhere",
    ask: `SELECT s.configuration || '/' || s.folded AS key FROM settings s JOIN merges g ON g.configuration = s.configuration
      WHERE NOT EXISTS (SELECT 1 FROM setting_moves m WHERE m.from_setting = s.id)
        AND s.at < g.at AND EXISTS (SELECT 1 FROM trials t WHERE t.setting = s.id)`,
  },
  {
    table: "spreads",
    what: "it points at another line of the log than the one that says it was learnt",
    ask: `SELECT s.id AS key FROM spreads s LEFT JOIN events e ON e.seq = s.event
      WHERE s.id > 1 AND (e.kind IS NOT 'spread-learnt' OR e.subject IS NOT 'spread/' || s.id) OR s.id = 1 AND s.event IS NOT NULL`,
  },
  {
    table: "method_adoptions",
    what: "it points at another line of the log than the one that says it was adopted",
    ask: `SELECT a.ordinal AS key FROM method_adoptions a LEFT JOIN events e ON e.seq = a.event
      WHERE a.ordinal > 1 AND (e.kind IS NOT 'method-adopted' OR e.subject IS NOT 'method/' || a.version) OR a.ordinal = 1 AND a.event IS NOT NULL`,
  },
  {
    table: "results",
    what: "a revision of a trial has no result",
    ask: `SELECT r.trial || '/' || r.revision AS key FROM trial_revisions r
      WHERE NOT EXISTS (SELECT 1 FROM results s WHERE s.trial = r.trial AND s.revision = r.revision)`,
  },
  {
    table: "result_bands",
    what: "it has other bands than its result",
    ask: `SELECT r.trial || '/' || r.revision || '/' || r.method_version AS key FROM results r
      WHERE json_valid(r.json) AND (SELECT group_concat(band, ' ') FROM (SELECT b.band FROM result_bands b
          WHERE b.trial = r.trial AND b.revision = r.revision AND b.method_version = r.method_version ORDER BY b.band))
        IS NOT (SELECT group_concat(name, ' ') FROM (SELECT e.value ->> '$.band.name' AS name
          FROM json_each(r.json, '$.results') e WHERE e.value ->> '$.band.kind' = 'standard' ORDER BY name))`,
  },
  {
    table: "trial_measures",
    what: "a revision of a trial has none",
    ask: `SELECT r.trial || '/' || r.revision AS key FROM trial_revisions r
      WHERE NOT EXISTS (SELECT 1 FROM trial_measures m WHERE m.trial = r.trial AND m.revision = r.revision)`,
  },
  {
    table: "trials, trial_revisions, questions, answers",
    what: "there are others than the log has lines of",
    ask: `SELECT kind AS key FROM (
        SELECT 'trial-stored' AS kind, (SELECT count(*) FROM trials) AS rows
        UNION ALL SELECT 'trial-amended', (SELECT count(*) FROM trial_revisions WHERE revision > 1)
        UNION ALL SELECT 'trial-questioned', (SELECT count(*) FROM questions)
        UNION ALL SELECT 'question-answered', (SELECT count(*) FROM answers)) said
      WHERE rows <> (SELECT count(*) FROM events e WHERE e.kind = said.kind)`,
  },
  {
    table: "keys",
    what: "a submitter has none", // unless the registry came from a dump that was given away, which holds none at all
    ask: `SELECT s.id AS key FROM submitters s WHERE EXISTS (SELECT 1 FROM keys)
      AND NOT EXISTS (SELECT 1 FROM keys k WHERE k.submitter = s.id)`,
  },
  {
    table: "sqlite_sequence",
    what: "the next line of the log would not follow the last",
    ask: "SELECT name AS key FROM sqlite_sequence WHERE name <> 'events' OR seq <> (SELECT coalesce(max(seq), 0) FROM events)",
  },
  {
    table: "files, series, words",
    what: "something erased is not said to be",
    ask: `SELECT sha256 AS key FROM files WHERE (erased_at IS NULL) <> (bytes IS NOT NULL)
      UNION ALL SELECT sha256 FROM series WHERE (erased_at IS NULL) <> (bytes IS NOT NULL)
      UNION ALL SELECT digest FROM words WHERE (erased_at IS NULL) <> (text IS NOT NULL)`,
  },
];

/** Checks what rows point at, SQLite's own structure, and that no reference leads nowhere. */
export async function checkLinks(connection: Connection, found: Damage[]): Promise<void> {
  for (const { table, what, ask } of CHECKS) {
    const rows = await connection.all<{ key: unknown }>(sql.raw(ask));
    for (const { key } of rows) found.push({ table, key: String(key), what });
  }
  const broken = await connection.all<{ table: string; rowid: number; parent: string }>(
    sql`SELECT "table", rowid, parent FROM pragma_foreign_key_check`,
  );
  for (const { table, rowid, parent } of broken) {
    found.push({ table, key: `row ${rowid}`, what: `it points at nothing in ${parent}` });
  }
  const [whole] = await connection.all<{ integrity_check: string }>(sql`SELECT * FROM pragma_integrity_check LIMIT 1`);
  if (whole?.integrity_check !== "ok") found.push({ table: "database", key: "", what: String(whole?.integrity_check) });
}
