import { rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Client, createClient } from "@libsql/client/web";
import { migrate } from "drizzle-orm/libsql/migrator";
import { drizzle } from "drizzle-orm/libsql/web";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { type LibsqlHttpServer, startLibsqlHttpServer } from "./libsql-http-server.ts";

const path = join(tmpdir(), `libsql-http-server-${crypto.randomUUID()}.db`);
const authToken = "a token for this test";
const transactionTimeoutMs = 300;
const migrationsFolder = join(import.meta.dirname, "fixtures", "migrations");

let server: LibsqlHttpServer;
let client: Client;
const connect = () => createClient({ url: server.url, authToken, intMode: "bigint" });

beforeAll(async () => {
  server = await startLibsqlHttpServer({ path, authToken, transactionTimeoutMs });
  client = connect();
  await migrate(drizzle(createClient({ url: server.url, authToken })), { migrationsFolder });
});
afterAll(async () => {
  client.close();
  await server.close();
  for (const end of ["", "-wal", "-shm"]) await rm(path + end, { force: true });
});
beforeEach(async () => {
  await client.executeMultiple("DELETE FROM jar; DELETE FROM shelf;");
});

const countShelves = async () => (await client.execute("SELECT count(*) FROM shelf")).rows[0]![0];
const rejection = (promise: Promise<unknown>) =>
  promise.then(
    () => expect.fail("it was accepted"),
    (error) => error,
  );

describe("values", () => {
  test.each([
    ["integer beyond a double", 9007199254740993n, "integer"],
    ["least integer", -9223372036854775808n, "integer"],
    ["greatest integer", 9223372036854775807n, "integer"],
    ["float", 0.1 + 0.2, "real"],
    ["whole float", 3, "real"],
    ["smallest float", 5e-324, "real"],
    ["text", "größe µg/m³ 🫙 'quoted' \"twice\"", "text"],
    ["empty text", "", "text"],
    ["null", null, "null"],
  ])("%s goes and comes back", async (_, value, type) => {
    const { rows } = await client.execute({ sql: "SELECT ?1, typeof(?1)", args: [value] });
    expect([rows[0]![0], rows[0]![1]]).toStrictEqual([value, type]);
  });

  test("a blob of every byte and an empty one go and come back", async () => {
    const bytes = Uint8Array.from({ length: 256 }, (_, i) => i);
    const { rows } = await client.execute({ sql: "SELECT ?, hex(?), ?", args: [bytes, bytes, new Uint8Array()] });
    expect(new Uint8Array(rows[0]![0] as ArrayBuffer)).toStrictEqual(bytes);
    expect(rows[0]![1]).toBe(Buffer.from(bytes).toString("hex").toUpperCase());
    expect((rows[0]![2] as ArrayBuffer).byteLength).toBe(0);
  });

  test.each([99, 100, 101, 200, 1000])("%i rows come back as so many", async (n) => {
    const sql = "WITH RECURSIVE c(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM c WHERE i < ?) SELECT i FROM c";
    const { rows } = await client.execute({ sql, args: [BigInt(n)] });
    expect(rows.map((row) => row[0])).toStrictEqual(Array.from({ length: n }, (_, i) => BigInt(i + 1)));
  });

  test("named arguments bind with or without their sign", async () => {
    const { rows } = await client.execute({ sql: "SELECT :a, @b, $c", args: { ":a": 1n, b: "two", $c: null } });
    expect(Array.from(rows[0]!)).toStrictEqual([1n, "two", null]);
  });

  test("a write tells its rows and its row id, a read tells none", async () => {
    const insert = await client.execute("INSERT INTO shelf(id, label) VALUES (7, 'a'), (8, 'b')");
    expect([insert.rowsAffected, insert.lastInsertRowid]).toStrictEqual([2, 8n]);
    const read = await client.execute("SELECT label FROM shelf");
    expect([read.rowsAffected, read.lastInsertRowid, read.columns]).toStrictEqual([0, undefined, ["label"]]);
  });
});

describe("refusals", () => {
  const cases: [string, string, string][] = [
    ["unique", "INSERT INTO shelf(label) VALUES ('a'), ('a')", "SQLITE_CONSTRAINT"],
    ["unique while returning", "INSERT INTO shelf(label) VALUES ('a'), ('a') RETURNING id", "SQLITE_CONSTRAINT"],
    ["not null", "INSERT INTO shelf(label) VALUES (NULL)", "SQLITE_CONSTRAINT"],
    ["check", "INSERT INTO shelf(label, width_m) VALUES ('a', -1)", "SQLITE_CONSTRAINT"],
    ["foreign key", "INSERT INTO jar(shelf_id) VALUES (4711)", "SQLITE_CONSTRAINT"],
    ["type", "INSERT INTO shelf(id, label) VALUES ('x', 'a')", "SQLITE_MISMATCH"],
    ["syntax", "SELEC 1", "SQL_INPUT_ERROR"],
    ["table", "SELECT * FROM nowhere", "SQL_INPUT_ERROR"],
    ["nothing", " -- nothing", "SQL_NO_STATEMENT"],
    ["two statements", "SELECT ';' /* ; */; SELECT 2", "SQL_MANY_STATEMENTS"],
    ["missing argument", "SELECT ?", "ARGS_INVALID"],
    ["run-time error", "SELECT abs(-9223372036854775808)", "SQLITE_UNKNOWN"],
  ];
  test.each(cases)("%s", async (_, sql, code) => {
    expect(await rejection(client.execute(sql))).toMatchObject({ code });
    expect(await countShelves()).toBe(0n);
  });

  test("a trigger's refusal is a constraint and carries its words", async () => {
    await client.execute("INSERT INTO shelf(label) VALUES ('a')");
    const error = await rejection(client.execute("UPDATE shelf SET label = 'b'"));
    expect(error).toMatchObject({
      code: "SQLITE_CONSTRAINT",
      message: expect.stringContaining("shelf is insert-only"),
    });
  });

  test("a wrong token", async () => {
    const stranger = createClient({ url: server.url, authToken: "another" });
    expect(await rejection(stranger.execute("SELECT 1"))).toMatchObject({ code: "AUTH_REJECTED" });
  });
});

describe("batches", () => {
  test("a failing statement undoes the whole batch and the server serves on", async () => {
    const statements = ["INSERT INTO shelf(label) VALUES ('a')", "INSERT INTO jar(shelf_id) VALUES (99)"];
    const error = await rejection(client.batch([...statements, "INSERT INTO shelf(label) VALUES ('c')"], "write"));
    expect(error).toMatchObject({ code: "SQLITE_CONSTRAINT", statementIndex: 1 });
    expect(await countShelves()).toBe(0n);
    await client.batch(["INSERT INTO shelf(label) VALUES ('d')"], "write");
    expect(await countShelves()).toBe(1n);
  });

  test("ten clients at once, each reading what it adds to, lose nothing", async () => {
    await client.execute("INSERT INTO shelf(label, width_m) VALUES ('seed', 1)");
    const add = "INSERT INTO shelf(label, width_m) SELECT ?, max(width_m) + 1 FROM shelf";
    const writers = Array.from({ length: 10 }, async (_, writer) => {
      const own = connect();
      for (let i = 0; i < 20; i++)
        await own.batch(
          [
            { sql: add, args: [`${writer}-${i}-a`] },
            { sql: add, args: [`${writer}-${i}-b`] },
          ],
          "write",
        );
      own.close();
    });
    await Promise.all(writers);
    const { rows } = await client.execute("SELECT count(*), max(width_m), count(DISTINCT width_m) FROM shelf");
    expect(Array.from(rows[0]!)).toStrictEqual([401n, 401, 401n]);
  });

  test("foreign keys left off by one stream are on for the next", async () => {
    await client.execute("PRAGMA foreign_keys=off");
    expect((await client.execute("PRAGMA foreign_keys")).rows[0]![0]).toBe(1n);
  });
});

describe("interactive transactions", () => {
  test("another client waits for the end and sees the whole", async () => {
    const transaction = await client.transaction("write");
    await transaction.execute("INSERT INTO shelf(label) VALUES ('a')");
    let isAnswered = false;
    const other = connect()
      .execute("SELECT count(*) FROM shelf")
      .finally(() => {
        isAnswered = true;
      });
    await transaction.execute("INSERT INTO shelf(label) VALUES ('b')");
    expect(isAnswered).toBe(false);
    await transaction.commit();
    expect((await other).rows[0]![0]).toBe(2n);
  });

  test("rollback, and leaving without an end, undo it", async () => {
    for (const end of ["rollback", "close"] as const) {
      const transaction = await client.transaction("write");
      await transaction.execute("INSERT INTO shelf(label) VALUES ('a')");
      await transaction[end]();
      expect(await countShelves()).toBe(0n);
    }
  });

  test("one that pauses too long is rolled back, lets others in and stays refused", async () => {
    const transaction = await client.transaction("write");
    await transaction.execute("INSERT INTO shelf(label) VALUES ('late')");
    const startMs = performance.now();
    await connect().execute("INSERT INTO shelf(label) VALUES ('other')");
    expect(performance.now() - startMs).toBeGreaterThan(transactionTimeoutMs / 2);
    expect(await rejection(transaction.execute("INSERT INTO shelf(label) VALUES ('later')"))).toMatchObject({
      code: "TRANSACTION_TIMEOUT",
    });
    expect(await rejection(transaction.commit())).toMatchObject({ code: "TRANSACTION_TIMEOUT" });
    expect((await client.execute("SELECT label FROM shelf")).rows.map((row) => row[0])).toStrictEqual(["other"]);
  });
});
