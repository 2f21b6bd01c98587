import { migrateDatabase } from "../db/migrate.ts";
import { startNodeServer } from "./node-server.ts";
import { makeFolderOf, openNode, readSettings } from "./node-settings.ts";

/* `npm run serve`: migrates the database and serves it. Nothing is ever seeded here. */
const settings = readSettings(process.env, "file:.data/motefall.db");
makeFolderOf(settings.libsqlUrl);
await migrateDatabase(settings.libsqlUrl, settings.authToken);
const deps = await openNode(settings);
const server = await startNodeServer({ deps, port: settings.port, host: settings.host });
console.log(`Motefall serves ${settings.libsqlUrl.replace(/\?.*/, "")} at ${server.url}`);

for (const signal of ["SIGTERM", "SIGINT"] as const) {
  process.once(signal, async () => {
    await server.close();
    deps.db.close();
    process.exit(0);
  });
}
