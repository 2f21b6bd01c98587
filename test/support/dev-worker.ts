import { spawn } from "node:child_process";
import { randomBytes } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { migrateDatabase } from "../../db/migrate.ts";
import { startLibsqlHttpServer } from "./libsql-http-server.ts";

/*
 * The Worker as it will run, on this machine: a libSQL server over HTTP on a file, brought to the newest schema, and
 * workerd in front of it. A TERM or Ctrl-C ends both.
 *   node test/support/dev-worker.ts [--port 8788] [--database .data/worker.db] [entry.ts]
 */
const root = join(import.meta.dirname, "../..");
const { values, positionals } = parseArgs({
  options: {
    port: { type: "string", default: "8788" },
    database: { type: "string", default: join(root, ".data/worker.db") },
  },
  allowPositionals: true,
});

const database = await startLibsqlHttpServer({ path: values.database });
await migrateDatabase(database.url);

const vars = {
  LIBSQL_URL: database.url,
  LIBSQL_AUTH_TOKEN: "",
  KEY_SECRET: readOrMakeSecret(`${values.database}.key`),
  OPERATOR_KEY: process.env.OPERATOR_KEY ?? randomBytes(16).toString("hex"),
  PUBLIC_URL: `http://127.0.0.1:${values.port}`,
};
const wrangler = spawn(
  process.execPath,
  [
    join(root, "node_modules/.bin/wrangler"), // not by npx, which would swallow the TERM and leave workerd behind
    ...["dev", ...positionals, "--local", "--ip", "127.0.0.1", "--port", values.port],
    ...["--inspector-port", "0", "--show-interactive-dev-session=false"],
    ...Object.entries(vars).flatMap(([name, value]) => ["--var", `${name}:${value}`]),
  ],
  {
    cwd: root,
    stdio: "inherit",
    env: { ...process.env, CLOUDFLARE_CF_FETCH_ENABLED: "false", WRANGLER_SEND_METRICS: "false" },
  },
);
console.log(`libSQL over HTTP at ${database.url}, kept in ${values.database}; operator's key ${vars.OPERATOR_KEY}`);
let isAskedToStop = false;
for (const signal of ["SIGTERM", "SIGINT", "SIGHUP"] as const) {
  process.on(signal, () => {
    isAskedToStop = true;
    wrangler.kill("SIGTERM");
  });
}
wrangler.once("exit", async (code) => {
  await database.close();
  process.exit(isAskedToStop ? 0 : (code ?? 1));
});

/** Kept beside the database: with another secret the keys handed out before would be worth nothing. */
function readOrMakeSecret(path: string) {
  if (!existsSync(path)) writeFileSync(path, randomBytes(32).toString("hex"), { mode: 0o600 });
  return readFileSync(path, "utf8").trim();
}
