import { desc, sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { event, expectation, newestSeqOf } from "./events.ts";
import { settingIdsMovedTo } from "./moves.ts";
import { methodAdoptions } from "./schema/standings.ts";
import { sealed } from "./seal.ts";

export type Adoption = typeof methodAdoptions.$inferSelect;

/** The method version that readers see. */
export async function findAdoption(connection: Connection): Promise<Adoption> {
  const [row] = await connection.select().from(methodAdoptions).orderBy(desc(methodAdoptions.ordinal)).limit(1);
  if (!row) throw new Error("the schema brings a first adoption"); // never removed: the table is insert-only
  return row;
}

/** Trials whose newest revision no version from this place on has analysed; withdrawn ones need none. */
const lacking = (ordinal: number) => sql`trials t
  JOIN trial_states s ON s.trial = t.id AND s.state <> 'withdrawn'
  JOIN trial_revisions v ON v.trial = t.id AND v.revision = (SELECT max(revision) FROM trial_revisions WHERE trial = t.id)
  WHERE NOT EXISTS (SELECT 1 FROM results r WHERE r.trial = t.id AND r.revision = v.revision AND r.method_ordinal >= ${ordinal})`;

const erased = sql`EXISTS (SELECT 1 FROM runs u JOIN series x ON x.sha256 = u.series WHERE u.trial = t.id AND u.revision = v.revision AND x.bytes IS NULL)`;

/** Trials still to be analysed, after an id, in order; those whose readings were erased cannot be. */
export async function listUnanalysed(connection: Connection, ordinal: number, after: string, limit: number) {
  const rows = await connection.all<{ id: string }>(
    sql`SELECT t.id AS id FROM ${lacking(ordinal)} AND NOT ${erased} AND t.id > ${after} ORDER BY t.id LIMIT ${limit}`,
  );
  return rows.map(({ id }) => id);
}

/** How many trials keep what an older version says of them, for their readings were erased. */
export async function countKept(connection: Connection, ordinal: number): Promise<number> {
  const rows = await connection.all<{ n: number }>(sql`SELECT count(*) AS n FROM ${lacking(ordinal)} AND ${erased}`);
  return Number(rows[0]!.n);
}

/** Readers see this version from now on. It changes no pooled figure by itself. */
export async function insertAdoption(
  connection: Connection,
  { version, ordinal, at, before }: { version: string; ordinal: number; at: string; before: number },
): Promise<void> {
  const subject = `method/${version}`;
  await connection.batch([
    event(connection, { at, kind: "method-adopted", subject, actor: "registry" }),
    expectation(connection, sql`(SELECT max(ordinal) FROM method_adoptions) = ${before}`, "method"),
    expectation(connection, sql`NOT EXISTS (SELECT 1 FROM ${lacking(ordinal)} AND NOT ${erased})`, "all analysed"),
    connection
      .insert(methodAdoptions)
      .values({ ...sealed(methodAdoptions, { ordinal, version, at }), event: newestSeqOf(subject) }),
  ]);
}

/**
 * Entries after an id whose newest figure was pooled under another version, in order: those with trials in them, and those
 * that may have some now. What a merge moved elsewhere has none now.
 */
export async function listUnapplied(connection: Connection, version: string, after: string, limit: number) {
  const moved = sql`EXISTS (SELECT 1 FROM setting_moves m WHERE m.from_setting = e.setting)`;
  const counting = sql`EXISTS (SELECT 1 FROM trials t
    JOIN trial_states s ON s.trial = t.id AND s.state IN ('listed', 'questioned')
    JOIN result_bands b ON b.trial = t.id AND b.band = e.band
    WHERE t.invented = e.invented AND t.setting IN ${settingIdsMovedTo(sql`e.setting`)})`;
  const rows = await connection.all<{ entry: string; setting: number; moved: number }>(
    sql`SELECT e.id AS entry, e.setting AS setting, ${moved} AS moved FROM entries e
      LEFT JOIN pooled p ON p.entry = e.id AND p.basis = 'all'
        AND p.seq = (SELECT max(seq) FROM pooled WHERE entry = e.id AND basis = 'all')
      WHERE e.id > ${after} AND p.method_version IS NOT ${version} AND (p.trials > 0 OR (NOT ${moved} AND ${counting}))
      ORDER BY e.id LIMIT ${limit}`,
  );
  return rows.map((row) => ({ ...row, moved: row.moved === 1 }));
}
