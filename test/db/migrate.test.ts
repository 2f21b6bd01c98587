import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Client, createClient } from "@libsql/client";
import { drizzle } from "drizzle-orm/libsql";
import { migrate } from "drizzle-orm/libsql/migrator";
import { afterAll, beforeAll, expect, test } from "vitest";
import { ASSUMED_SPREAD } from "../../analysis/expected-elsewhere.ts";
import { rebuild } from "../../api/jobs/rebuild.ts";
import { openEmbedded } from "../../db/embedded.ts";
import { migrateDatabase } from "../../db/migrate.ts";
import { newKey, store } from "../support/client.ts";
import { type InProcess, settings, startInProcess } from "../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial, withoutFlow } from "../support/sample-trial.ts";
import { tableContents } from "../support/table-contents.ts";

const folder = mkdtempSync(join(tmpdir(), "motefall-"));
let target: InProcess;
let source: Client;
beforeAll(async () => {
  target = await startInProcess();
  source = createClient({ url: target.databaseUrl });
});
afterAll(async () => {
  source.close();
  await target.stop();
  rmSync(folder, { recursive: true });
});

/** A database as the first `count` migrations make it. */
async function migrateOnce(url: string, count: number): Promise<void> {
  const migrations = join(import.meta.dirname, "../../db/migrations");
  const some = join(folder, "some");
  cpSync(migrations, some, { recursive: true });
  mkdirSync(join(some, "meta"), { recursive: true });
  const journal = JSON.parse(readFileSync(join(migrations, "meta/_journal.json"), "utf8"));
  writeFileSync(
    join(some, "meta/_journal.json"),
    JSON.stringify({ ...journal, entries: journal.entries.slice(0, count) }),
  );
  const client = createClient({ url });
  await migrate(drizzle(client), { migrationsFolder: some });
  client.close();
}

async function tableNames(client: Client): Promise<string[]> {
  const { rows } = await client.execute(
    "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name NOT LIKE '\\_\\_%' ESCAPE '\\'",
  );
  return rows.map(({ name }) => String(name));
}

/** Copies what the older schema has a place for; its triggers sleep meanwhile. */
async function copyInto(old: Client): Promise<void> {
  await old.execute("PRAGMA foreign_keys = OFF");
  await old.execute("DROP TRIGGER pooled_stands");
  for (const table of await tableNames(old)) {
    const columns = (await old.execute(`PRAGMA table_info(${table})`)).rows.map(({ name }) => String(name));
    const { rows } = await source.execute(`SELECT ${columns.join(", ")} FROM ${table}`);
    for (const row of rows) {
      await old.execute({
        sql: `INSERT INTO ${table} (${columns.join(", ")}) VALUES (${columns.map(() => "?").join(", ")})`,
        args: columns.map((column) => row[column]!),
      });
    }
  }
  await old.execute(
    "CREATE TRIGGER pooled_stands AFTER INSERT ON pooled BEGIN SELECT 1; END", // as before: some trigger of that name
  );
}

test("a database from before pooling on four bases, migrated and rebuilt, is as if it had always had the schema", async () => {
  const key = await newKey(target, "Ebb");
  const noise = [
    { quantity: "L_pA", level: { value: 44, unit: "dB" }, distance: { value: 2, unit: "m" }, meter: "phone" },
  ];
  const first = await store(target, key, sampleTrial(1, { noise, power: { value: 40, unit: "W" } }));
  const [background, , total] = sampleTrial(2).runs;
  const taken = { role: "natural", from_run: `${first.id}/runs/1` };
  await store(target, key, sampleTrial(2, { interest: "paid", runs: [background, taken, total] }));
  const unpaired = await store(
    target,
    key,
    sampleTrial(3, { runs: [background, total], aerosol: { kind: "incense" } }),
  );
  const gone = await store(target, key, sampleTrial(4));
  await target.request(`/v1/trials/${gone.id}/withdrawal`, json({ reason: "a test" }, bearer(key)));

  const hangar = { label: "Hangar", volume: { value: 4153, unit: "m3", u: 80 } };
  const doubted = await store(
    target,
    key,
    sampleTrial(5, { room: hangar, configuration: withoutFlow(SAMPLE_CONFIGURATION) }),
  );
  const listing = { subject: doubted.id, action: "list", reason: "photographs" };
  const listed = await target.request("/v1/moderation", json(listing, bearer(settings.operatorKey)));
  expect(listed.status).toBe(200);

  const url = `file:${join(folder, "old.db")}`;
  await migrateOnce(url, 2);
  const old = createClient({ url });
  await copyInto(old);
  old.close();
  await migrateDatabase(url);
  const db = await openEmbedded(url);
  await rebuild(db);
  db.close();

  const now = createClient({ url });
  const [{ spreads: _, ...was }, { spreads: __, ...is }] = [await tableContents(source), await tableContents(now)];
  expect(is).toEqual(was); // but for the instant at which each had its first spread
  const { rows } = await now.execute(`SELECT trial, natural_source FROM result_bands WHERE band = '0.1-1.0'`);
  expect(new Set(rows.map(({ natural_source }) => natural_source))).toEqual(
    new Set([`${first.id}/1/1`, `${gone.id}/1/1`, `${doubted.id}/1/1`, null]),
  );
  expect(rows.find(({ trial }) => trial === unpaired.id)!.natural_source).toBeNull();
  const serious = await now.execute(`SELECT DISTINCT trial FROM result_bands WHERE serious`);
  expect(serious.rows).toEqual([{ trial: doubted.id }]);
  expect((await now.execute(`SELECT max(serious) AS most FROM pooled`)).rows).toEqual([{ most: 1 }]);
  now.close();
});

test("the first spread is the one that analyses assume", async () => {
  const { rows } = await source.execute("SELECT relative, dof, source FROM spreads");
  expect(rows).toEqual([ASSUMED_SPREAD]);
});
