import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createApp } from "../../api/app.ts";
import type { Dependencies } from "../../api/environment.ts";
import { startNodeServer } from "../../api/node-server.ts";
import { importSecret } from "../../api/secret.ts";
import type { Database } from "../../db/database.ts";
import { openEmbedded } from "../../db/embedded.ts";
import { migrateDatabase } from "../../db/migrate.ts";
import { startLibsqlHttpServer } from "./libsql-http-server.ts";
import { startWorker } from "./start-worker.ts";

/** The service, running, with a migrated and empty database of its own. */
export interface Target {
  request(path: string, init?: RequestInit): Promise<Response>;
  stop(): Promise<void>;
  /** Where the service may run many times over one database: once more. */
  newIsolate?(): Promise<Target>;
}

/** The one application in each place where it runs, for `describe.each(targets())`. */
export function targets(): { name: "in process" | "node server" | "workerd"; start(): Promise<Target> }[] {
  return [
    { name: "in process", start: startInProcess },
    { name: "node server", start: startOnNode },
    { name: "workerd", start: startOnWorkerd },
  ];
}

/** What every target is started with. */
export const settings = {
  keySecret: "a secret for tests, of more than thirty-two bytes",
  operatorKey: "operator-key-for-tests",
  publicUrl: "http://motefall.test",
};

async function startInProcess(): Promise<Target> {
  const { db, discard } = await openTemporary();
  const deps = await dependencies(db);
  const app = createApp(() => deps);
  return { request: async (path, init) => app.request(path, init), stop: discard };
}

async function startOnNode(): Promise<Target> {
  const { db, discard } = await openTemporary();
  const server = await startNodeServer({ deps: await dependencies(db), port: 0 });
  return {
    request: (path, init) => fetch(new URL(path, server.url), init),
    async stop() {
      await server.close();
      await discard();
    },
  };
}

async function startOnWorkerd(): Promise<Target> {
  const database = await startLibsqlHttpServer({ path: ":memory:", authToken: "token" });
  await migrateDatabase(database.url, "token");
  const startIsolate = async (): Promise<Target> => {
    const { keySecret, operatorKey, publicUrl } = settings;
    const vars = { KEY_SECRET: keySecret, OPERATOR_KEY: operatorKey, PUBLIC_URL: publicUrl };
    const worker = await startWorker({ libsqlUrl: database.url, libsqlAuthToken: "token", vars });
    return { request: worker.fetch, stop: worker.stop };
  };
  const first = await startIsolate();
  return {
    ...first,
    newIsolate: startIsolate,
    async stop() {
      await first.stop();
      await database.close();
    },
  };
}

async function openTemporary() {
  const folder = await mkdtemp(join(tmpdir(), "motefall-"));
  const url = `file:${join(folder, "motefall.db")}`;
  await migrateDatabase(url);
  const db = await openEmbedded(url);
  return {
    db,
    async discard() {
      db.close();
      await rm(folder, { recursive: true });
    },
  };
}

async function dependencies(db: Database): Promise<Dependencies> {
  return {
    db,
    now: () => new Date(),
    random: (length) => crypto.getRandomValues(new Uint8Array(length)),
    secret: await importSecret(settings.keySecret),
    operatorKey: settings.operatorKey,
    publicUrl: settings.publicUrl,
  };
}
