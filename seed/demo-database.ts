import { existsSync, renameSync, rmSync } from "node:fs";
import { resolve } from "node:path";
import { createApp } from "../api/app.ts";
import { type NodeSettings, openNode } from "../api/node-settings.ts";
import { migrateDatabase } from "../db/migrate.ts";
import { submitters } from "../db/schema/identity.ts";
import { fillDemo } from "./fill-demo.ts";

/** The file of `npm run serve`: invented trials have no business in it. */
const SERVED = ".data/motefall.db";

/**
 * Migrates the demo's database, and fills it where nobody has stored anything yet. It is filled under another name and put
 * in its place when complete, so that a fill that was interrupted is simply begun again.
 */
export async function prepareDemoDatabase(settings: NodeSettings, tell: (line: string) => void): Promise<void> {
  const path = pathOf(settings.libsqlUrl);
  if (existsSync(path) && (await isInUse(settings))) return;
  const started = performance.now();
  tell("Filling the demo's database: a few seconds, once.");
  const [filling, filled] = ["filling", "filled"].map((state) => `${path.replace(/\.db$/, "")}.${state}.db`);
  for (const leftOver of [filling!, filled!]) remove(leftOver);
  const count = await fill({ ...settings, libsqlUrl: `file:${filling}` }, filled!);
  remove(path);
  if (existsSync(`${filling}.key`)) renameSync(`${filling}.key`, `${path}.key`); // what was stored was MACed with it
  renameSync(filled!, path);
  remove(filling!);
  tell(`Stored ${count} invented trials in ${path} in ${((performance.now() - started) / 1000).toFixed(1)} s.`);
}

async function isInUse(settings: NodeSettings): Promise<boolean> {
  await migrateDatabase(settings.libsqlUrl);
  const { db } = await openNode(settings);
  const known = await db.read.$count(submitters);
  db.close();
  return known > 0;
}

/** Fills a database and writes it whole to a file of its own, which no open connection and no WAL belongs to. */
async function fill(settings: NodeSettings, into: string): Promise<number> {
  await migrateDatabase(settings.libsqlUrl);
  const deps = await openNode(settings);
  const app = createApp(() => deps);
  const stored = await fillDemo(async (path, init) => app.request(path, init));
  await deps.db.write((connection) => connection.run(`VACUUM INTO '${into.replaceAll("'", "''")}'`));
  deps.db.close();
  return stored.length;
}

/** A database of nothing, or of a fill that was interrupted. */
function remove(path: string): void {
  for (const suffix of ["", "-wal", "-shm", "-journal", ".key"]) rmSync(path + suffix, { force: true });
}

function pathOf(libsqlUrl: string): string {
  const path = /^file:(?:\/\/(?=\/))?([^?]+)/.exec(libsqlUrl)?.[1];
  if (!path) throw new RangeError("The demo lives in a file of this machine: LIBSQL_URL must begin with file:");
  if (resolve(path) === resolve(SERVED))
    throw new RangeError(`${SERVED} belongs to npm run serve: give the demo another file.`);
  return path;
}
