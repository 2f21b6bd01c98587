import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createApp } from "../../api/app.ts";
import { NO_DUMPS } from "../../api/dumps.ts";
import type { Dependencies } from "../../api/environment.ts";
import { nodeRenderer } from "../../api/node-renderer.ts";
import { readSubmitScript } from "../../api/node-submit-script.ts";
import { importSecret } from "../../api/secret.ts";
import { openEmbedded } from "../../db/embedded.ts";
import { migrateDatabase } from "../../db/migrate.ts";
import { PUBLIC_URL } from "./public-url.ts";

/** The application in this process, with what stands behind it in reach of a test. */
export interface InProcess {
  readonly deps: Dependencies;
  readonly databaseUrl: string;
  request(path: string, init?: RequestInit): Promise<Response>;
  stop(): Promise<void>;
}

/** What every target is started with. */
export const settings = {
  keySecret: "a secret for tests, of more than thirty-two bytes",
  operatorKey: "operator-key-for-tests",
  publicUrl: PUBLIC_URL,
};

/** Dependencies on a migrated and empty database in a temporary folder. */
export async function openTemporary(): Promise<{ deps: Dependencies; databaseUrl: string; discard(): Promise<void> }> {
  const folder = await mkdtemp(join(tmpdir(), "motefall-"));
  const databaseUrl = `file:${join(folder, "motefall.db")}`;
  await migrateDatabase(databaseUrl);
  const db = await openEmbedded(databaseUrl);
  const deps: Dependencies = {
    db,
    now: () => new Date(),
    random: (length) => crypto.getRandomValues(new Uint8Array(length)),
    secret: await importSecret(settings.keySecret),
    operatorKey: settings.operatorKey,
    publicUrl: settings.publicUrl,
    submitScript: readSubmitScript(),
    dumps: NO_DUMPS,
    render: nodeRenderer,
  };
  return {
    deps,
    databaseUrl,
    async discard() {
      db.close();
      await rm(folder, { recursive: true });
    },
  };
}

export async function startInProcess(): Promise<InProcess> {
  const { deps, databaseUrl, discard } = await openTemporary();
  const app = createApp(() => deps);
  return { deps, databaseUrl, request: async (path, init) => app.request(path, init), stop: discard };
}
