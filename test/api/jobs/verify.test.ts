import { createClient, type InValue } from "@libsql/client";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { eraseFromTrial } from "../../../api/jobs/erase.ts";
import { verify } from "../../../api/jobs/verify/verify.ts";
import { checkMigrations } from "../../../db/fixity/check-migrations.ts";
import { damageOne, disarm } from "../../support/damage.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { operate } from "../../support/random-registry.ts";

describe("a registry by chance", () => {
  let target: InProcess;
  beforeAll(async () => {
    target = await startInProcess();
    await operate(target, 4, 50);
  }, 60_000);
  afterAll(() => target.stop());
  const damages = async () => {
    const { db } = target.deps;
    return [...(await verify(db.read, 3)).damages, ...(await checkMigrations(db.read))];
  };

  test("is as it was written, and results come out again", async () => {
    const { damages: found, checked, reanalysed } = await verify(target.deps.db.read, 10);
    expect(found).toEqual([]);
    expect(reanalysed).toEqual({ same: 10, erased: 0 });
    expect(checked.rows).toBeGreaterThan(400);
  });

  test("what was erased on purpose is said to be erased, not damaged", async () => {
    const { db, now } = target.deps;
    const [trial] = await db.read.all<{ id: string }>("SELECT id FROM trials ORDER BY id LIMIT 1");
    for (const what of ["words", "series"] as const) {
      await eraseFromTrial(db, trial!.id, what, "asked to", now().toISOString());
    }
    const { damages: found, checked } = await verify(db.read, 0);
    expect(found).toEqual([]);
    expect(checked.erased).toBeGreaterThan(1);
  });

  test("a row taken away is found", async () => {
    const client = createClient({ url: target.databaseUrl });
    await disarm(client);
    const missed: string[] = [];
    const put = async (sql: string, args: InValue[]) =>
      client.migrate(["PRAGMA ignore_check_constraints = ON", { sql, args }]);
    for (const table of ["keys", "trial_measures", "result_bands", "results", "runs", "words", "events", "questions"]) {
      const { rows } = await client.execute(`SELECT rowid AS place, * FROM ${table} ORDER BY rowid DESC LIMIT 2`);
      for (const { place, ...row } of rows) {
        await put(`DELETE FROM ${table} WHERE rowid = ?`, [place!]);
        if ((await damages()).length === 0) missed.push(`${table} ${place}`);
        const names = Object.keys(row);
        const marks = names.map(() => "?").join(", ");
        await put(`INSERT INTO ${table} (rowid, ${names.join(", ")}) VALUES (?, ${marks})`, [
          place!,
          ...Object.values(row),
        ] as InValue[]);
      }
    }
    expect(missed).toEqual([]);
    expect(await damages()).toEqual([]);
    client.close();
  });

  test("one byte changed anywhere is found", async () => {
    const client = createClient({ url: target.databaseUrl });
    await disarm(client);
    const random = createRandom(11);
    const missed: string[] = [];
    let tried = 0;
    while (tried < 15) {
      const damaged = await damageOne(client, random);
      if (!damaged) continue;
      tried++;
      const { table, column, was, is } = damaged;
      if ((await damages()).length === 0) missed.push(`${table}.${column}: ${was} → ${is}`);
      await damaged.undo();
    }
    expect(missed).toEqual([]);
    expect(await damages()).toEqual([]); // all is back, or a later find would prove nothing
    client.close();
  }, 60_000);

  test("a value that cannot be read hides no other damage", async () => {
    const client = createClient({ url: target.databaseUrl });
    const put = async (sql: string, args: InValue[]) =>
      client.migrate(["PRAGMA ignore_check_constraints = ON", { sql, args }]);
    await put("UPDATE keys SET mac = x'00' WHERE rowid = 1", []);
    for (const beyond of ["9223372036854775807", "9e999"]) {
      await put(`UPDATE trials SET invented = ${beyond} WHERE rowid = 1`, []);
      await put(`UPDATE result_bands SET cadr_u = ${beyond} WHERE rowid = 1`, []);
      await put(`UPDATE pooled SET u = ${beyond} WHERE rowid = 1`, []);
      const tables = new Set((await damages()).map(({ table }) => table));
      expect([...tables]).toEqual(expect.arrayContaining(["keys", "trials", "result_bands"]));
    }
    client.close();
  });
});
