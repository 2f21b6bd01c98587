import { readdirSync } from "node:fs";
import { join } from "node:path";
import { createClient } from "@libsql/client";
import { drizzle } from "drizzle-orm/libsql";
import { verify } from "../../../api/jobs/verify/verify.ts";
import { checkSums } from "./check-sums.ts";
import type { Acknowledged } from "./write-load.ts";

/** A trial lacks something that was to be stored with it. */
const HALVES = `SELECT trials.id FROM trials WHERE NOT EXISTS (SELECT 1 FROM trial_revisions r WHERE r.trial = trials.id)
  OR NOT EXISTS (SELECT 1 FROM results r WHERE r.trial = trials.id)
  OR (SELECT count(*) FROM runs WHERE runs.trial = trials.id) <> 2
  OR NOT EXISTS (SELECT 1 FROM trial_states s WHERE s.trial = trials.id)
  OR NOT EXISTS (SELECT 1 FROM events e WHERE e.subject = trials.id AND e.kind = 'trial-stored')`;

/** What is wrong in the database after a kill: nothing, if all is well. */
export async function checkStored(url: string, known: Acknowledged, sample: number): Promise<string[]> {
  const client = createClient({ url });
  const wrong: string[] = [];
  const column = async (sql: string) => (await client.execute(sql)).rows.map((row) => row[0]);
  const integrity = await column("PRAGMA integrity_check");
  if (integrity.join() !== "ok") wrong.push(`integrity_check: ${integrity.join()}`);
  const { rows } = await client.execute(
    "SELECT r.trial, r.sha256, s.state FROM trial_revisions r JOIN trial_states s ON s.trial = r.trial",
  );
  const stored = new Map(rows.map(({ trial, sha256, state }) => [String(trial), { sha256, state }]));
  for (const [id, sha256] of known.trials) {
    if (stored.get(id)?.sha256 !== sha256) wrong.push(`${id} was acknowledged and is not stored as it was`);
  }
  for (const id of known.withdrawn) if (stored.get(id)?.state !== "withdrawn") wrong.push(`${id} was withdrawn`);
  const questions = new Set(await column("SELECT id FROM questions"));
  for (const id of known.questions) if (!questions.has(id)) wrong.push(`${id} was acknowledged and is not stored`);
  for (const id of await column(HALVES)) wrong.push(`${id} is half a trial`);
  const { damages } = await verify(drizzle(client), sample);
  for (const { table, key, what } of damages) wrong.push(`${table} ${key}: ${what}`);
  client.close();
  return wrong;
}

/** What is wrong with the dumps in a folder: what has a dump's name must be whole. */
export async function checkDumps(folder: string): Promise<{ wrong: string[]; whole: number }> {
  const names = readdirSync(folder).filter((name) => /^\d+$/.test(name));
  const wrong = await Promise.all(names.map((name) => checkSums(join(folder, name))));
  return { wrong: wrong.flat(), whole: names.length };
}
