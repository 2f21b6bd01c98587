import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Client, createClient } from "@libsql/client";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { newKey, store } from "../support/client.ts";
import { type InProcess, startInProcess } from "../support/in-process.ts";
import { bearer, json, sampleTrial } from "../support/sample-trial.ts";

/** Every table that may only grow, and a column of it. */
const INSERT_ONLY = [
  ["submitters", "created_at"],
  ["keys", "mac"],
  ["rooms", "created_at"],
  ["room_revisions", "volume_m3"],
  ["configurations", "kind"],
  ["configuration_revisions", "title"],
  ["settings", "label"],
  ["trials", "interest"],
  ["trial_revisions", "json"],
  ["runs", "role"],
  ["results", "json"],
  ["result_bands", "cadr_m3_per_h"],
  ["trial_measures", "power_w"],
  ["spreads", "relative"],
  ["setting_moves", "to_setting"],
  ["events", "reason"],
  ["entries", "band"],
  ["questions", "at"],
  ["answers", "author"],
  ["fingerprints", "hash"],
  ["method_adoptions", "version"],
] as const;
const ERASABLE = [
  ["files", "bytes"],
  ["series", "bytes"],
  ["words", "text"],
] as const;

describe("the database itself forbids", () => {
  let target: InProcess;
  let client: Client;
  beforeAll(async () => {
    target = await startInProcess();
    const key = await newKey(target, "Neap");
    const { id } = await store(target, key, sampleTrial(1));
    const asked = await target.request(`/v1/trials/${id}/questions`, json({ question: "Why?" }));
    const { questions } = (await asked.json()) as { questions: { id: string }[] };
    await target.request(`/v1/questions/${questions[0]!.id}/answers`, json({ answer: "So." }, bearer(key)));
    client = createClient({ url: target.databaseUrl });
    await client.execute("INSERT INTO setting_moves SELECT min(id), max(id) FROM settings");
    await client.execute("INSERT INTO files (sha256, size, bytes) VALUES ('f', 2, x'0102')");
  });
  afterAll(async () => {
    client.close();
    await target.stop();
  });
  const refused = (sql: string) =>
    expect(client.execute(sql)).rejects.toMatchObject({ code: expect.stringContaining("SQLITE_CONSTRAINT") });

  test.each(INSERT_ONLY)("changing or removing %s", async (table, column) => {
    expect((await client.execute(`SELECT count(*) AS n FROM ${table}`)).rows[0]!.n).toBeGreaterThan(0);
    await refused(`UPDATE ${table} SET ${column} = ${column}`);
    await refused(`DELETE FROM ${table}`);
  });

  test.each(ERASABLE)("changing %s but for an erasure with its reason", async (table, column) => {
    const other = table === "words" ? ", salt = NULL" : "";
    await refused(`DELETE FROM ${table}`);
    await refused(`UPDATE ${table} SET ${column} = 'other'`);
    await refused(`UPDATE ${table} SET ${column} = NULL${other}`);
    await refused(`UPDATE ${table} SET ${column} = NULL${other}, erased_reason = 'asked to'`);
    const erasure = `${column} = NULL${other}, erased_reason = 'asked to', erased_at = '2026-10-01'`;
    await refused(`UPDATE ${table} SET ${erasure}`); // when and why has a hash
    await client.execute(`UPDATE ${table} SET ${erasure}, erased_sha256 = 'hash'`);
    await refused(`UPDATE ${table} SET erased_reason = 'another'`);
    await refused(`UPDATE ${table} SET ${column} = x'0102'`);
  });

  test("a row from before hashes is hashed once, and nothing else of it changes", async () => {
    await client.execute(
      "INSERT INTO events (at, kind, subject, actor) VALUES ('t', 'trial-stored', 'trl-x', 'sub-x')",
    );
    await refused("UPDATE events SET row_sha256 = 'h', actor = 'sub-y' WHERE subject = 'trl-x'");
    await client.execute("UPDATE events SET row_sha256 = 'h' WHERE subject = 'trl-x'");
    await refused("UPDATE events SET row_sha256 = 'g' WHERE subject = 'trl-x'");
  });

  test("a volume of 0, an unknown interest, half a pooled figure, a merge into itself", async () => {
    await refused(
      "INSERT INTO room_revisions (room, revision, volume_m3, volume_u, basis, at) SELECT id, 2, 0, 0, 'x', 'x' FROM rooms",
    );
    await refused(
      "INSERT INTO merges (configuration, merged_into, reason, at) SELECT id, id, 'x', 'x' FROM configurations",
    );
    await refused(
      "INSERT INTO pooled (entry, basis, seq, trials, rooms, submitters, unpaired, interest_json, members_hash, method_version) SELECT id, 'paired', 1, 1, 1, 1, 0, '{}', '', '' FROM entries",
    );
    await refused(
      "INSERT INTO trials SELECT 'trl-x', submitter, configuration, setting, room, 'fun', aerosol, invented, x'00', NULL, created_at, NULL FROM trials",
    );
    await refused(
      "INSERT INTO runs (trial, revision, n, role, counter, series, analysis_json) VALUES ('nobody', 1, 0, 'total', 'c', 'x', '{}')",
    );
  });

  test("an expectation that does not hold", async () => {
    await refused("INSERT INTO expectations (holds, what) VALUES (0, 'a lost race')");
    await client.execute("INSERT INTO expectations (holds, what) VALUES (1, 'as read')");
  });
});

test("a database is brought to the newest schema twice without harm", async () => {
  const { migrateDatabase } = await import("../../db/migrate.ts");
  const folder = mkdtempSync(join(tmpdir(), "motefall-"));
  await migrateDatabase(`file:${folder}/a.db`);
  await migrateDatabase(`file:${folder}/a.db`);
  rmSync(folder, { recursive: true });
});
