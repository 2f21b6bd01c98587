import { type ChildProcessByStdio, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Readable } from "node:stream";
import { afterAll, beforeAll, expect, test } from "vitest";
import { findWorkerds, isRunning } from "./find-workerds.ts";

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "dev-worker-"));
});
afterAll(() => rm(folder, { recursive: true }));

test("it serves, a TERM stops all of it, and the next start finds data and secret again", async () => {
  const first = await visitOnce();
  const second = await visitOnce();
  expect([first.visits, second.visits]).toStrictEqual([1, 2]);
  expect(second.secret).toBe(first.secret);
  expect(await readFile(join(folder, "worker.db.key"), "utf8")).toBe(first.secret);
}, 60_000);

async function visitOnce() {
  const port = String(await findFreePort());
  const script = join(import.meta.dirname, "dev-worker.ts");
  const entry = join(import.meta.dirname, "fixtures/counting-worker.ts");
  const options = ["--port", port, "--database", join(folder, "worker.db")];
  const child = spawn(process.execPath, [script, ...options, entry], { stdio: ["ignore", "pipe", "pipe"] });
  const ended = once(child, "exit");
  try {
    await waitForText(child, `Ready on http://127.0.0.1:${port}`);
    const get = async (path: string) => (await fetch(`http://127.0.0.1:${port}${path}`)).json();
    const { visits } = (await get("/count")) as { visits: number };
    const { vars } = (await get("/echo")) as { vars: string[] };
    const workerds = findWorkerds(child.pid!);
    expect(workerds.length).toBeGreaterThan(0);
    child.kill("SIGTERM");
    expect(await ended).toStrictEqual([0, null]);
    expect(workerds.filter(isRunning)).toStrictEqual([]);
    return { visits, secret: vars[0] };
  } finally {
    if (child.exitCode === null) child.kill("SIGTERM");
  }
}

/** Listens to the end, or a later line would break the child's pipe. */
function waitForText(child: ChildProcessByStdio<null, Readable, Readable>, wanted: string) {
  let seen = "";
  return new Promise<void>((resolve, reject) => {
    for (const stream of [child.stdout, child.stderr]) {
      stream.on("data", (chunk: Buffer) => {
        seen += chunk;
        if (seen.includes(wanted)) resolve();
      });
    }
    child.once("exit", () => reject(new Error(`it ended without saying ${wanted}: ${seen}`)));
  });
}

async function findFreePort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const address = server.address();
  await new Promise((resolve) => server.close(resolve));
  if (address === null || typeof address === "string") throw new Error("no port");
  return address.port;
}
