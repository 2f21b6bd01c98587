import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createClient } from "@libsql/client";
import { afterAll, beforeAll, expect, test } from "vitest";
import { newKey, type StoredTrial } from "../support/client.ts";
import { crashRegistry } from "../support/crash/crash-registry.ts";
import { bearer, json, sampleTrial } from "../support/sample-trial.ts";

const root = join(import.meta.dirname, "../..");
const folder = mkdtempSync(join(tmpdir(), "motefall-kill-"));
const database = `file:${join(folder, "motefall.db")}`;
let server: ChildProcess;
let url: string;

/** `npm run serve` as it stands in .build/, on a free port. */
async function startServer(): Promise<void> {
  const env = { ...process.env, PORT: "0", LIBSQL_URL: database, PUBLIC_URL: "http://motefall.test" };
  server = spawn(process.execPath, [join(root, ".build/node.js")], {
    cwd: folder,
    env,
    stdio: ["ignore", "pipe", "inherit"],
  });
  url = await new Promise((resolve, reject) => {
    server.stdout!.on("data", (text: Buffer) => {
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(text.toString());
      if (found) resolve(found[0]);
    });
    server.once("exit", (code) => reject(new Error(`the server ended with ${code}`)));
  });
}

async function killServer(): Promise<void> {
  const ended = new Promise((resolve) => server.once("exit", resolve));
  server.kill("SIGKILL");
  await ended;
}

const request = (path: string, init?: RequestInit) => fetch(new URL(path, url), init);

beforeAll(async () => {
  execFileSync("npm", ["run", "build", "-s"], { cwd: root });
  await startServer();
}, 60_000);
afterAll(async () => {
  await killServer();
  rmSync(folder, { recursive: true });
});

test("kill -9 during 200 writes loses no acknowledged trial", async () => {
  const key = await newKey({ request, stop: async () => {} }, "Spring tide");
  const acknowledged = new Map<string, string>();
  const killAt = [23, 61, 118, 160];
  const bodies = Array.from({ length: 200 }, (_, seed) =>
    sampleTrial(1000 + seed, { runs: sampleTrial(1000 + seed).runs.slice(1) }),
  );
  let next = 0;
  let unanswered = 0;
  let restart: Promise<void> | null = null;

  async function write(): Promise<void> {
    while (next < bodies.length) {
      await restart;
      const body = bodies[next++];
      try {
        const answer = await request("/v1/trials", json(body, bearer(key)));
        expect(answer.status).toBe(201);
        const trial = (await answer.json()) as StoredTrial;
        acknowledged.set(trial.id, trial.sha256);
      } catch (error) {
        if (!(error instanceof TypeError)) throw error; // fetch's word for a broken connection
        unanswered++;
      }
      if (killAt.length > 0 && next >= killAt[0]!) {
        killAt.shift();
        restart = killServer().then(startServer);
      }
    }
  }
  await Promise.all(Array.from({ length: 6 }, write));
  await restart;

  expect(acknowledged.size + unanswered).toBe(200);
  expect(acknowledged.size).toBeGreaterThan(150);
  expect(unanswered).toBeGreaterThan(0); // else nothing was being written when it was killed
  for (const [id, sha256] of acknowledged) {
    const answer = await request(`/v1/trials/${id}`);
    expect(answer.status).toBe(200);
    expect(((await answer.json()) as StoredTrial).sha256).toBe(sha256);
  }
  const client = createClient({ url: database });
  expect((await client.execute("PRAGMA integrity_check")).rows[0]!.integrity_check).toBe("ok");
  // No half of a trial: each has its record, its result, its state and a place in a pool.
  const counts = await client.execute(
    "SELECT (SELECT count(*) FROM trials) AS trials, (SELECT count(*) FROM trial_revisions) AS revisions, (SELECT count(*) FROM results) AS results, (SELECT count(*) FROM trial_states) AS states, (SELECT count(*) FROM events WHERE kind = 'trial-stored') AS events, (SELECT trials FROM pooled ORDER BY seq DESC LIMIT 1) AS pooled",
  );
  const { trials, ...others } = counts.rows[0]!;
  expect(Number(trials)).toBeGreaterThanOrEqual(acknowledged.size);
  expect(new Set(Object.values(others))).toEqual(new Set([trials]));
  client.close();
}, 120_000);

test("kill -9 beside dumps and reanalyses loses nothing either, and a dump comes back as the same list", async () => {
  const { known, kills, wrong } = await crashRegistry({ kills: 3, seed: 1, sample: 2 });
  expect(wrong).toEqual([]);
  expect([...kills.keys()].filter((what) => what.startsWith("job")).length).toBeGreaterThan(0);
  expect(known.trials.size).toBeGreaterThan(5);
  expect(known.unanswered).toBeGreaterThan(0);
}, 240_000);
