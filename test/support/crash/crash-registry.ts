import { mkdirSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { newKey } from "../client.ts";
import { checkDumps, checkStored } from "./check-stored.ts";
import { type Running, runProcess } from "./run-process.ts";
import { type Acknowledged, writeLoad } from "./write-load.ts";

const ROUNDS = ["writing", "dumping", "reanalysing"] as const;

/** What came of it. */
export interface Crashed {
  readonly known: Acknowledged;
  /** How often what was killed: a server while writing, a dump, … */
  readonly kills: ReadonlyMap<string, number>;
  readonly wholeDumps: number;
  /** Begun and killed before they were whole. */
  readonly halfDumps: number;
  readonly versionsAdopted: number;
  readonly wrong: readonly string[];
}

/**
 * Kills processes of a registry in use, -9, at moments taken by chance: the server while tests are sent to it, while a dump
 * is made beside it, while another method version goes over what is stored; or that job. Checks all that is stored after
 * each, and at the end whether a dump comes back as the same list.
 */
export async function crashRegistry(it: {
  kills: number;
  seed: number;
  sample: number;
  tell?: (line: string) => void;
}): Promise<Crashed> {
  const { kills: wanted, seed, sample, tell = () => undefined } = it;
  const random = createRandom(seed);
  const folder = mkdtempSync(join(tmpdir(), "motefall-crash-"));
  const dumps = join(folder, "dumps");
  mkdirSync(dumps);
  const env = { LIBSQL_URL: `file:${join(folder, "motefall.db")}`, PUBLIC_URL: "http://motefall.test", PORT: "0" };
  const known: Acknowledged = { trials: new Map(), questions: new Set(), withdrawn: new Set(), unanswered: 0 };
  const kills = new Map<string, number>();
  const wrong: string[] = [];
  /** How long each job was at work where it was let to its end, so that a kill comes within it. */
  const lasts = { writing: 200, dumping: 80, reanalysing: 400 };
  let [nextSeed, ordinal] = [1000 * seed, 2];

  const startJob = (round: (typeof ROUNDS)[number]): Running | null => {
    if (round === "writing") return null;
    if (round === "dumping") return runProcess([".build/dump-command.js", dumps], env);
    return runProcess(["--import", "tsx", "test/support/crash/reanalyse-as.ts", String(ordinal)], env);
  };
  /** Waits for a job that was let be: it must end well. */
  async function finish(round: (typeof ROUNDS)[number], job: Running): Promise<void> {
    const { code, complaints } = await job.ended;
    if (code === null) return;
    if (code !== 0) wrong.push(`${round} ended with ${code}: ${complaints.slice(0, 500)}`);
    else if (round === "reanalysing") ordinal++;
  }

  let server = await startServer(env);
  const key = await newKey({ request: (path, init) => fetch(new URL(path, server.url), init), stop: async () => {} });
  for (let killed = 0; killed < wanted; ) {
    const round = ROUNDS[Math.floor(3 * random.uniform())]!;
    const stop = writeLoad(server.url, key, known, () => ++nextSeed);
    await writing(known, 1 + Math.floor(6 * random.uniform())); // else it is killed before it did anything
    const job = startJob(round);
    if (job !== null) await atWork(round, job, dumps);
    const began = performance.now();
    const takesServer = job === null || random.uniform() < 0.5;
    const victim = takesServer ? server.running : job!;
    const moment = new Promise((resolve) => setTimeout(resolve, lasts[round] * random.uniform()));
    await (job === null ? moment : Promise.race([moment, job.ended]));
    const inTime = job === null || job.isAlive();
    if (inTime) {
      victim.kill();
      await victim.ended;
      killed++;
      const what = `${takesServer ? "server" : "job"} while ${round}`;
      kills.set(what, (kills.get(what) ?? 0) + 1);
    } else lasts[round] = 0.9 * (performance.now() - began);
    await stop();
    if (job) await finish(round, job);
    if (!inTime) continue;
    const found = [...(await checkStored(env.LIBSQL_URL, known, sample)), ...(await checkDumps(dumps)).wrong];
    wrong.push(...found.map((words) => `kill ${killed}, ${round}: ${words}`));
    tell(
      `${killed} ${takesServer ? "server" : "job"} while ${round}: ${known.trials.size} trials, ${found.length} wrong`,
    );
    if (takesServer) server = await startServer(env);
  }

  wrong.push(...(await compareServed(server.url, known)));
  for (const round of ["reanalysing", "dumping"] as const) await finish(round, startJob(round)!);
  const whole = await checkDumps(dumps);
  const newest = readdirSync(dumps)
    .filter((name) => /^\d+$/.test(name))
    .sort()
    .at(-1)!;
  const again = { ...env, LIBSQL_URL: `file:${join(folder, "again.db")}` };
  const restored = await runProcess([".build/restore-command.js", join(dumps, newest)], again).ended;
  if (restored.code !== 0) wrong.push(`the restore ended with ${restored.code}: ${restored.complaints.slice(0, 500)}`);
  const second = await startServer(again);
  for (const query of ["", "?basis=independent", "?unpaired=include&limit=200"]) {
    const [was, is] = await Promise.all([server.url, second.url].map((url) => read(url, `/v1/leaderboard${query}`)));
    if (was !== is || !was!.includes("ent-")) wrong.push(`the restored list ${query} is another`);
  }
  wrong.push(...(await compareServed(second.url, known)).map((words) => `restored: ${words}`));
  for (const { running } of [server, second]) {
    running.kill();
    await running.ended;
  }
  const halfDumps = countHalfDumps(dumps);
  rmSync(folder, { recursive: true });
  return {
    known,
    kills,
    wholeDumps: whole.whole,
    halfDumps,
    versionsAdopted: ordinal - 2,
    wrong: [...wrong, ...whole.wrong],
  };
}

/** Until so many more tests were acknowledged. */
async function writing({ trials }: Acknowledged, more: number): Promise<void> {
  const [until, latest] = [trials.size + more, performance.now() + 20_000];
  while (trials.size < until && performance.now() < latest) await new Promise((resolve) => setTimeout(resolve, 5));
}

/** Until a job has begun to write: a kill before that would try nothing. */
async function atWork(round: (typeof ROUNDS)[number], job: Running, dumps: string): Promise<void> {
  if (round === "reanalysing") {
    await job.says(/at work/);
    return;
  }
  const halves = countHalfDumps(dumps);
  while (job.isAlive() && countHalfDumps(dumps) === halves) await new Promise((resolve) => setTimeout(resolve, 2));
}

/** What killed dumps left behind, under the name of none. */
function countHalfDumps(dumps: string): number {
  return readdirSync(dumps).filter((name) => name.endsWith(".part")).length;
}

async function startServer(env: Readonly<Record<string, string>>): Promise<{ url: string; running: Running }> {
  const running = runProcess([".build/node.js"], env);
  return { url: await running.says(/http:\/\/127\.0\.0\.1:\d+/), running };
}

async function read(url: string, path: string): Promise<string> {
  return (await fetch(new URL(path, url))).text();
}

/** Acknowledged trials that the service does not give as they were stored. */
async function compareServed(url: string, { trials }: Acknowledged): Promise<string[]> {
  const wrong: string[] = [];
  for (const [id, sha256] of trials) {
    const { sha256: is } = JSON.parse(await read(url, `/v1/trials/${id}`)) as { sha256?: string };
    if (is !== sha256) wrong.push(`${id} is served with another hash`);
  }
  return wrong;
}
