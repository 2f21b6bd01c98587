import { randomBytes } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import type { Database } from "../db/database.ts";
import { openEmbedded } from "../db/embedded.ts";
import { openRemote } from "../db/remote.ts";
import type { Dependencies } from "./environment.ts";
import { dumpsIn } from "./node-dumps.ts";
import { nodeRenderer } from "./node-renderer.ts";
import { readSubmitScript } from "./node-submit-script.ts";
import { importSecret } from "./secret.ts";

/** What a Node process is told by its environment. */
export interface NodeSettings {
  readonly port: number;
  readonly host: string;
  readonly libsqlUrl: string;
  readonly authToken: string | undefined;
  readonly publicUrl: string;
  readonly keySecret: string | undefined;
  readonly operatorKey: string | null;
  /** Folder of dumps to give away. */
  readonly dumpsDir: string;
}

/** Reads PORT, HOST, LIBSQL_URL, LIBSQL_AUTH_TOKEN, PUBLIC_URL, KEY_SECRET, OPERATOR_KEY and DUMPS_DIR. */
export function readSettings(env: NodeJS.ProcessEnv, defaultUrl: string): NodeSettings {
  const port = Number(env.PORT ?? 8787);
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    throw new RangeError(`PORT must be a port number, not ${env.PORT}`);
  const host = env.HOST ?? "127.0.0.1";
  return {
    port,
    host,
    libsqlUrl: env.LIBSQL_URL || defaultUrl,
    authToken: env.LIBSQL_AUTH_TOKEN || undefined,
    publicUrl: (env.PUBLIC_URL || `http://${host}:${port}`).replace(/\/$/, ""),
    keySecret: env.KEY_SECRET || undefined,
    operatorKey: env.OPERATOR_KEY || null,
    dumpsDir: env.DUMPS_DIR || ".data/dumps",
  };
}

/** Opens the database and makes the application's dependencies. */
export async function openNode(settings: NodeSettings): Promise<Dependencies> {
  return {
    db: await openDatabase(settings),
    now: () => new Date(),
    random: (length) => crypto.getRandomValues(new Uint8Array(length)),
    secret: await importSecret(settings.keySecret ?? keptSecret(settings.libsqlUrl)),
    operatorKey: settings.operatorKey,
    publicUrl: settings.publicUrl,
    submitScript: readSubmitScript(),
    later: oneByOne(),
    render: nodeRenderer,
    dumps: dumpsIn(settings.dumpsDir),
  };
}

/** A queue: each job begins when the one before is done. */
function oneByOne(): (job: () => Promise<unknown>) => void {
  let last: Promise<unknown> = Promise.resolve();
  return (job) => {
    last = last.then(job);
  };
}

/** The folder of an embedded database is made where it is missing; libSQL itself would only fail. */
export function makeFolderOf(libsqlUrl: string): void {
  if (libsqlUrl.startsWith("file:")) mkdirSync(dirname(pathOf(libsqlUrl)), { recursive: true });
}

async function openDatabase({ libsqlUrl, authToken }: NodeSettings): Promise<Database> {
  return libsqlUrl.startsWith("file:") ? openEmbedded(libsqlUrl) : openRemote(libsqlUrl, authToken);
}

/** With another secret every key handed out before would be worth nothing, so it is made once and kept beside the file. */
function keptSecret(libsqlUrl: string): string {
  if (!libsqlUrl.startsWith("file:"))
    throw new Error("KEY_SECRET must be set where the database is not a file of this machine");
  const path = `${pathOf(libsqlUrl)}.key`;
  if (!existsSync(path)) writeFileSync(path, randomBytes(32).toString("hex"), { mode: 0o600 });
  return readFileSync(path, "utf8").trim();
}

function pathOf(fileUrl: string): string {
  return fileUrl.replace(/^file:(\/\/(?=\/))?/, "");
}
