import { createHash, randomBytes } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type LibsqlHttpServer, startLibsqlHttpServer } from "./libsql-http-server.ts";
import { type RunningWorker, startWorker } from "./start-worker.ts";

const main = "test/support/fixtures/counting-worker.ts";
const vars = { KEY_SECRET: "the secret of this test", PUBLIC_URL: "http://motefall.test" };
let database: LibsqlHttpServer;
let workers: RunningWorker[];
let runtimesBefore: number[];

beforeAll(async () => {
  runtimesBefore = findRuntimes();
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
  expect(findRuntimes().length).toBeGreaterThanOrEqual(runtimesBefore.length + 2);
  await Promise.all(workers.map((worker) => worker.stop()));
  expect(findRuntimes().filter((pid) => !runtimesBefore.includes(pid))).toStrictEqual([]);
});

type Counts = { visits: number; requestsSeen: number };

/** The workerd processes that descend from this one. */
function findRuntimes(): number[] {
  const parentOf = new Map<number, number>();
  const runtimes: number[] = [];
  for (const entry of readdirSync("/proc").filter((name) => /^\d+$/.test(name))) {
    try {
      const stat = readFileSync(`/proc/${entry}/stat`, "utf8");
      const [, pid, name, state, parent] = /^(\d+) \((.*)\) (\S) (\d+)/.exec(stat)!;
      parentOf.set(Number(pid), Number(parent));
      if (name === "workerd" && state !== "Z") runtimes.push(Number(pid));
    } catch {} // it ended while we looked
  }
  const isOurs = (pid: number): boolean => pid === process.pid || (pid > 1 && isOurs(parentOf.get(pid) ?? 0));
  return runtimes.filter(isOurs);
}
