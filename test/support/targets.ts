import { startNodeServer } from "../../api/node-server.ts";
import { migrateDatabase } from "../../db/migrate.ts";
import { openTemporary, settings, startInProcess } from "./in-process.ts";
import { startLibsqlHttpServer } from "./libsql-http-server.ts";
import { startWorker } from "./start-worker.ts";

/** The service, running, with a migrated and empty database of its own. */
export interface Target {
  request(path: string, init?: RequestInit): Promise<Response>;
  stop(): Promise<void>;
  /** Where a browser finds it, if it listens at all. */
  readonly url?: string;
  /** Where its database is, for those who look behind the service. */
  readonly databaseUrl?: string;
  readonly databaseToken?: string;
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

async function startOnNode(): Promise<Target> {
  const { deps, databaseUrl, discard } = await openTemporary();
  const server = await startNodeServer({ deps, port: 0 });
  return {
    url: server.url,
    databaseUrl,
    request: (path, init) => fetch(new URL(path, server.url), init),
    async stop() {
      await server.close();
      await discard();
    },
  };
}

async function startOnWorkerd(): Promise<Target> {
  const databaseToken = "token";
  const database = await startLibsqlHttpServer({ path: ":memory:", authToken: databaseToken });
  await migrateDatabase(database.url, databaseToken);
  const startIsolate = async (): Promise<Target> => {
    const { keySecret, operatorKey, publicUrl } = settings;
    const vars = { KEY_SECRET: keySecret, OPERATOR_KEY: operatorKey, PUBLIC_URL: publicUrl };
    const worker = await startWorker({ libsqlUrl: database.url, libsqlAuthToken: databaseToken, vars });
    return { request: worker.fetch, stop: worker.stop };
  };
  const first = await startIsolate();
  return {
    ...first,
    databaseUrl: database.url,
    databaseToken,
    newIsolate: startIsolate,
    async stop() {
      await first.stop();
      await database.close();
    },
  };
}
