import { createHash, randomBytes } from "node:crypto";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, expect, test } from "vitest";
import { findWorkerds, isRunning } from "./find-workerds.ts";
import { type LibsqlHttpServer, startLibsqlHttpServer } from "./libsql-http-server.ts";
import { type RunningWorker, startWorker } from "./start-worker.ts";

const main = "test/support/fixtures/counting-worker.ts";
const vars = { KEY_SECRET: "the secret of this test", PUBLIC_URL: "http://motefall.test" };
let database: LibsqlHttpServer;
let workers: RunningWorker[];

beforeAll(async () => {
  database = await startLibsqlHttpServer({ path: ":memory:", authToken: "token" });
  const start = () => startWorker({ libsqlUrl: database.url, libsqlAuthToken: "token", vars, main });
  workers = await Promise.all([start(), start()]);
});
afterAll(() => database.close());

test("the Worker runs in workerd and gets its variables, the bytes sent and the encoding named", async () => {
  const bytes = randomBytes(3 * 1024 * 1024);
  const packed = gzipSync(bytes);
  const response = await workers[0]!.fetch("/echo", {
    method: "PUT",
    headers: { "content-encoding": "gzip" },
    body: packed,
  });
  expect(response.status).toBe(418);
  expect(await response.json()).toStrictEqual({
    method: "PUT",
    contentEncoding: "gzip",
    bodySha256: createHash("sha256").update(packed).digest("hex"),
    userAgent: "Cloudflare-Workers",
    vars: [vars.KEY_SECRET, vars.PUBLIC_URL],
  });
});

test("two isolates at once write to one database and lose nothing", async () => {
  const answers = await Promise.all(
    Array.from({ length: 40 }, async (_, i) => (await workers[i % 2]!.fetch("/count")).json() as Promise<Counts>),
  );
  expect(Math.max(...answers.map(({ visits }) => visits))).toBe(40);
  expect(Math.max(...answers.map(({ requestsSeen }) => requestsSeen))).toBeLessThan(40);
});

test("stopping leaves no workerd behind", async () => {
  const pids = findWorkerds(process.pid);
  expect(pids.length).toBeGreaterThanOrEqual(2);
  await Promise.all(workers.map((worker) => worker.stop()));
  expect(pids.filter(isRunning)).toStrictEqual([]);
});

type Counts = { visits: number; requestsSeen: number };
