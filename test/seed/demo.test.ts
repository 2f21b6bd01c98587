import { type ChildProcess, execFile, spawn } from "node:child_process";
import { existsSync, readdirSync, writeFileSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { type AddressInfo, createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "motefall-demo-"));
});
afterAll(() => rm(folder, { recursive: true }));

/** Runs the demo until it has said what to try, or has ended. */
async function startDemo(env: Record<string, string>) {
  const child = spawn(process.execPath, ["--import", "tsx", "seed/demo.ts"], {
    cwd: root,
    env: { ...process.env, PORT: "0", HOST: "127.0.0.1", LIBSQL_URL: `file:${join(folder, "demo.db")}`, ...env },
  });
  let said = "";
  const ended = new Promise<number | null>((resolve) => child.once("exit", resolve));
  await new Promise<void>((resolve) => {
    const listen = (chunk: Buffer) => {
      said += chunk;
      if (said.includes("Stop it with")) resolve();
    };
    child.stdout.on("data", listen);
    child.stderr.on("data", listen);
    child.once("close", () => resolve());
  });
  return { said, ended, stop: () => stop(child, ended) };
}

function stop(child: ChildProcess, ended: Promise<number | null>) {
  child.kill("SIGTERM");
  return ended;
}

test("fills once what an interrupted fill left, says what to try, which works, and ends when asked", async () => {
  writeFileSync(join(folder, "demo.filling.db"), "half a database");
  const first = await startDemo({});
  const url = /The demo is at (\S+)\//.exec(first.said)?.[1];
  expect(first.said).toMatch(/Stored \d+ invented trials/);
  const page = /http:\S+\/trials\/(\S+)/.exec(first.said)!;
  expect(await (await fetch(page[0])).text()).toContain("<svg");
  const command = /curl -s .*/.exec(first.said)![0];
  const { stdout } = await promisify(execFile)("sh", ["-c", command]);
  const results = (JSON.parse(stdout) as { results: { cadr: { value: number } }[] }).results;
  expect(results[0]!.cadr.value).toBeGreaterThan(0);
  const before = await (await fetch(`${url}/v1/leaderboard`)).text();
  expect(await first.stop()).toBe(0);
  expect(readdirSync(folder).filter((name) => /fill/.test(name))).toEqual([]);

  const second = await startDemo({});
  expect(second.said).not.toContain("Stored");
  expect(second.said).toContain(page[1]);
  const secondUrl = /The demo is at (\S+)\//.exec(second.said)?.[1];
  expect(await (await fetch(`${secondUrl}/v1/leaderboard`)).text()).toBe(before);
  expect(await second.stop()).toBe(0);
}, 40_000);

test("a taken port is said in one sentence, before anything is filled", async () => {
  const holder = createServer().listen(0, "127.0.0.1");
  await new Promise((listening) => holder.once("listening", listening));
  const { port } = holder.address() as AddressInfo;
  const path = join(folder, "untouched.db");
  const { said, ended } = await startDemo({ PORT: String(port), LIBSQL_URL: `file:${path}` });
  holder.close();
  expect(await ended).toBe(1);
  expect(said.trim()).toMatch(new RegExp(`^Port ${port} is taken: .*\\.$`));
  expect(existsSync(path)).toBe(false);
});

test.each([
  ["file:.data/motefall.db", /belongs to npm run serve/],
  ["libsql://motefall.example", /must begin with file:/],
])("refuses %s as the demo's database", async (url, reason) => {
  const { said, ended } = await startDemo({ LIBSQL_URL: url });
  expect(await ended).toBe(1);
  expect(said.trim().split("\n")).toEqual([expect.stringMatching(reason)]);
});
