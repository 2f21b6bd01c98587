import { join } from "node:path";
import { createClient } from "@libsql/client/web";
import { eq } from "drizzle-orm";
import { migrate } from "drizzle-orm/libsql/migrator";
import { drizzle } from "drizzle-orm/libsql/web";
import { blob, integer, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type LibsqlHttpServer, startLibsqlHttpServer } from "./libsql-http-server.ts";

const authToken = "a token for this test";
const migrationsFolder = join(import.meta.dirname, "fixtures", "migrations");
const shelf = sqliteTable("shelf", {
  id: integer().primaryKey(),
  label: text().notNull(),
  widthM: real("width_m"),
  image: blob({ mode: "buffer" }),
});

type PipelineAnswer = {
  baton: string | null;
  results: { response?: { result?: object; is_autocommit?: boolean }; error?: { code: string } }[];
};

let server: LibsqlHttpServer;
beforeAll(async () => {
  server = await startLibsqlHttpServer({ path: ":memory:", authToken });
  await migrate(connect(), { migrationsFolder });
});
afterAll(() => server.close());
const connect = () => drizzle(createClient({ url: server.url, authToken }));

const rejection = (promise: Promise<unknown>) =>
  promise.then(
    () => expect.fail("it was accepted"),
    (error) => error,
  );

describe("the wire", () => {
  const post = (body: unknown) =>
    fetch(`${server.url}/v2/pipeline`, {
      method: "POST",
      headers: { authorization: `Bearer ${authToken}` },
      body: JSON.stringify(body),
    });
  const postPipeline = async (body: unknown) => (await (await post(body)).json()) as PipelineAnswer;

  test("version 2 is spoken, version 3 is not", async () => {
    const get = (path: string) => fetch(server.url + path, { headers: { authorization: `Bearer ${authToken}` } });
    expect([(await get("/v2")).status, (await get("/v3-protobuf")).status]).toStrictEqual([200, 404]);
  });

  test("stored texts, describe, autocommit and one-time batons", async () => {
    const first = await postPipeline({
      requests: [
        { type: "store_sql", sql_id: 1, sql: "SELECT label, ?2 AS x FROM shelf WHERE id = :id" },
        { type: "describe", sql_id: 1 },
        { type: "describe", sql: "WITH one AS (SELECT 1) DELETE FROM jar" },
        { type: "close_sql", sql_id: 1 },
        { type: "describe", sql_id: 1 },
        { type: "sequence", sql: "BEGIN" },
        { type: "get_autocommit" },
      ],
    });
    expect(first.results[1]!.response!.result).toStrictEqual({
      params: [{ name: null }, { name: "?2" }, { name: ":id" }],
      cols: [
        { name: "label", decltype: "TEXT" },
        { name: "x", decltype: null },
      ],
      is_explain: false,
      is_readonly: true,
    });
    expect(first.results[2]!.response!.result).toMatchObject({ is_readonly: false });
    expect(first.results[4]!.error!.code).toBe("SQL_NOT_FOUND");
    expect(first.results[6]!.response!.is_autocommit).toBe(false);
    const second = await postPipeline({ baton: first.baton, requests: [{ type: "close" }] });
    expect(second).toMatchObject({ baton: null, results: [{ type: "ok", response: { type: "close" } }] });
    const reused = await post({ baton: first.baton, requests: [{ type: "close" }] });
    expect([reused.status, await reused.json()]).toMatchObject([400, { code: "STREAM_EXPIRED" }]);
  });

  test("what is not the protocol gets 400", async () => {
    expect((await post({ requests: [{ type: "dance" }] })).status).toBe(400);
    expect((await post("text")).status).toBe(400);
  });
});

describe("through drizzle", () => {
  test("migrating again changes nothing", async () => {
    const db = connect();
    await migrate(db, { migrationsFolder });
    expect((await db.$client.execute("SELECT count(*) FROM __drizzle_migrations")).rows[0]![0]).toBe(1);
  });

  test("batch, returning, blob and nested transaction", async () => {
    const db = connect();
    const image = Buffer.from([0, 1, 254, 255]);
    const [inserted] = await db.batch([
      db.insert(shelf).values({ label: "a", widthM: 0.4, image }).returning(),
      db.insert(shelf).values({ label: "b" }),
    ]);
    expect(inserted[0]).toMatchObject({ label: "a", widthM: 0.4, image });
    await db.transaction(async (outer) => {
      await outer.insert(shelf).values({ label: "c" });
      const inner = outer.transaction(async (tx) => {
        await tx.insert(shelf).values({ label: "d" });
        tx.rollback();
      });
      await rejection(inner);
    });
    const labels = (await db.select({ label: shelf.label }).from(shelf)).map((row) => row.label);
    expect(labels.sort()).toStrictEqual(["a", "b", "c"]);
    const error = await rejection(db.insert(shelf).values({ label: "a" }).execute());
    expect(error.cause).toMatchObject({ code: "SQLITE_CONSTRAINT" });
    await rejection(db.batch([db.insert(shelf).values({ label: "e" }), db.insert(shelf).values({ label: "a" })]));
    expect(await db.select().from(shelf).where(eq(shelf.label, "e"))).toStrictEqual([]);
  });
});
