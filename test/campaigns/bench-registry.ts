import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { parseArgs } from "node:util";
import { bearer, json, sampleTrial } from "../support/sample-trial.ts";
import { fillRegistry, TRIALS_AN_ENTRY } from "./bench-registry-fill.ts";

/*
 * How a large registry answers, best of five rounds, and how that grows. Run it alone:
 *
 *   npm run bench:registry -- [--entries 100000] [--small 1000] [--folder /tmp/motefall-registry] [--only words]
 *
 * The files are kept, and a second start goes on where the first stopped.
 */
const { values: options } = parseArgs({
  options: {
    entries: { type: "string", default: "100000" },
    small: { type: "string", default: "1000" },
    folder: { type: "string", default: join(tmpdir(), "motefall-registry") },
    port: { type: "string", default: "8799" },
    /** Times only calls whose name holds these words. */
    only: { type: "string", default: "" },
  },
});
const ROUNDS = 5;
const REQUESTS_A_ROUND = 100;
const SERVER = new URL("../../.build/node.js", import.meta.url).pathname;

/**
 * As the server is started: Node's own choice, halves of 64 MB for what is young and an old heap that may double before it
 * is swept, would be most of an idle server's memory.
 */
const HEAP = ["--max-semi-space-size=8", "--heap-growing-percent=40"];

interface Call {
  readonly name: string;
  readonly path: string;
  /** The limit it is held to, ms. */
  readonly atMostMs: number;
  /** How many of a hundred it is to hold for; 99 where nothing is said. */
  readonly percentile?: number;
}

const EVERY_CALL: readonly Call[] = [
  { name: "page", path: "/v1/leaderboard?", atMostMs: 25 },
  ...[
    "kind=commercial",
    "aerosol=salt",
    "noise_max=45",
    "cost_max=100+EUR",
    "power_max=40",
    "min_rooms=3",
    "unpaired=include",
    "basis=independent",
    "basis=paired",
    "basis=independent_paired",
    "sort=cadr_low",
    "sort=cadr_per_watt",
    "sort=cadr_per_cost",
    "sort=noise",
    "sort=noise_for_300",
    "format=csv",
    "kind=user_built&aerosol=salt&noise_max=45&cost_max=100+EUR&power_max=40&min_rooms=3&sort=noise",
  ].map((query) => ({ name: query, path: `/v1/leaderboard?${query}&`, atMostMs: 25 })),
  // The server remembers the selections last asked for: here every page asks for another.
  { name: "noise_max, another each time", path: "/v1/leaderboard?noise_max=45.{i}&", atMostMs: 25 },
  { name: "sizing", path: "/v1/sizing?volume=60m3&air_changes=5&", atMostMs: 150 },
  {
    name: "sizing, quiet and cheap",
    path: "/v1/sizing?volume=60m3&air_changes=5&noise_max=45&budget=400+EUR&",
    atMostMs: 150,
  },
  { name: "HTML page", path: "/?", atMostMs: 40, percentile: 95 },
  { name: "HTML page, noise_max=50", path: "/?noise_max=50&", atMostMs: 40, percentile: 95 },
  { name: "HTML page, noise_max, another each time", path: "/?noise_max=50.{i}&", atMostMs: 40, percentile: 95 },
];
const CALLS = EVERY_CALL.filter(({ name }) => name.includes(options.only));

interface Measured {
  readonly callsMs: ReadonlyMap<string, number>;
  readonly storeMs: number;
  readonly firstMs: number;
  readonly afterStoreMs: number;
  readonly memoryMb: number;
}

const large = await measure(Number(options.entries));
const small = await measure(Number(options.small));
const rows = (entries: string) => `${Number(entries) * TRIALS_AN_ENTRY}`;
console.log(`\nwhat | ${rows(options.entries)} results | limit | ${rows(options.small)} results | ratio`);
for (const { name, atMostMs, percentile = 99 } of CALLS) {
  line(`${name}, p${percentile}`, large.callsMs.get(name)!, small.callsMs.get(name)!, atMostMs);
}
line("storing a trial beyond its analysis", large.storeMs, small.storeMs, 60);
line("first page after a stored trial", large.afterStoreMs, small.afterStoreMs, null);
line("first page after the start", large.firstMs, small.firstMs, null);
line("server memory, MB", large.memoryMb, small.memoryMb, 300);

function line(name: string, big: number, little: number, limit: number | null): void {
  const over = limit !== null && big > limit ? "  OVER" : "";
  console.log(
    `${name} | ${big.toFixed(1)} | ${limit ?? ""} | ${little.toFixed(1)} | ${(big / little).toFixed(2)}${over}`,
  );
  if (over) process.exitCode = 1;
}

async function measure(entries: number): Promise<Measured> {
  mkdirSync(options.folder, { recursive: true });
  const file = join(options.folder, `${entries}.db`);
  const started = performance.now();
  if (!existsSync(file)) console.log(`filling ${file}`);
  await fillRegistry(`file:${file}`, entries, (text) => console.log(text));
  console.log(
    `${entries} entries: filled in ${((performance.now() - started) / 1000).toFixed(0)} s, ${(statSync(file).size / 2 ** 20).toFixed(0)} MB`,
  );
  const { server, url } = await serve(file);
  try {
    const firstMs = await milliseconds(`${url}/v1/leaderboard`);
    const callsMs = new Map<string, number>();
    for (const { name, path, percentile = 99 } of CALLS) {
      callsMs.set(name, await bestPercentile(`${url}${path}`, percentile));
    }
    const { storeMs, afterStoreMs } = await measureStoring(url);
    return { callsMs, storeMs, firstMs, afterStoreMs, memoryMb: memoryOf(server) };
  } finally {
    server.kill("SIGTERM");
  }
}

async function serve(file: string): Promise<{ server: ChildProcess; url: string }> {
  const url = `http://127.0.0.1:${options.port}`;
  const env = { ...process.env, PORT: options.port, HOST: "127.0.0.1", LIBSQL_URL: `file:${file}`, PUBLIC_URL: url };
  const server = spawn(process.execPath, [...HEAP, SERVER], { env, stdio: ["ignore", "ignore", "inherit"] });
  for (let tries = 0; tries < 200; tries++) {
    const up = await fetch(`${url}/healthz`).catch(() => null);
    if (up?.ok) return { server, url };
    await wait(50);
  }
  server.kill("SIGTERM");
  throw new Error("the server did not come up");
}

async function milliseconds(url: string, init?: RequestInit): Promise<number> {
  const start = performance.now();
  const answer = await fetch(url, init);
  const text = await answer.text();
  const took = performance.now() - start;
  if (!answer.ok) throw new Error(`${url}: ${answer.status} ${text.slice(0, 300)}`);
  return took;
}

/** A percentile of the calls of a round, the best of the rounds. Each call has a page of its own size. */
async function bestPercentile(url: string, percentile: number): Promise<number> {
  const rounds: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const took: number[] = [];
    for (let i = 0; i < REQUESTS_A_ROUND; i++)
      took.push(await milliseconds(`${url.replace("{i}", `${round}${i}`)}limit=${50 - (i % 3)}`));
    took.sort((a, b) => a - b);
    rounds.push(took[Math.ceil((percentile / 100) * took.length) - 1]!);
  }
  return Math.min(...rounds);
}

/** Storing a trial takes its analysis with it: what is beyond is the median of the one less that of the other. */
async function measureStoring(url: string): Promise<{ storeMs: number; afterStoreMs: number }> {
  const { key } = (await (await fetch(`${url}/v1/keys`, { method: "POST" })).json()) as { key: string };
  const [stored, analysed, after]: [number[], number[], number[]] = [[], [], []];
  const seed = Date.now() % 1e9; // content of its own on every start, else it would be the same trial again
  for (let i = 0; i < 25; i++) {
    const trial = sampleTrial(seed + i);
    const { room, counters, runs, aerosol } = trial;
    analysed.push(await milliseconds(`${url}/v1/analyses`, json({ room, counters, runs, aerosol })));
    stored.push(await milliseconds(`${url}/v1/trials`, json(trial, bearer(key))));
    after.push(await milliseconds(`${url}/v1/leaderboard`));
  }
  const bestMedian = (all: number[]) =>
    Math.min(...Array.from({ length: ROUNDS }, (_, r) => median(all.slice(r * 5, r * 5 + 5))));
  return { storeMs: bestMedian(stored) - bestMedian(analysed), afterStoreMs: bestMedian(after) };
}

function median(values: number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}

/** The most memory the server ever held, MB: VmHWM of Linux. */
function memoryOf({ pid }: ChildProcess): number {
  const status = readFileSync(`/proc/${pid}/status`, "utf8");
  return Number(/VmHWM:\s+(\d+) kB/.exec(status)?.[1]) / 1024;
}
