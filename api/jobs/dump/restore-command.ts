import { migrateDatabase } from "../../../db/migrate.ts";
import { makeFolderOf, openNode, readSettings } from "../../node-settings.ts";
import { restore } from "./restore.ts";

/* `npm run restore -- FOLDER`: a dump into the empty database at LIBSQL_URL. */
const folder = process.argv[2];
if (!folder) {
  console.error("npm run restore -- FOLDER, with LIBSQL_URL naming an empty database");
  process.exit(2);
}
const settings = readSettings(process.env, "file:.data/motefall.db");
makeFolderOf(settings.libsqlUrl);
await migrateDatabase(settings.libsqlUrl, settings.authToken);
const { db } = await openNode(settings);
const { rows, differing } = await restore(folder, { url: settings.libsqlUrl, authToken: settings.authToken }, db);
db.close();
console.log(`${rows} rows restored, derived tables made anew`);
for (const table of differing) console.log(`${table} came out otherwise than the dump has it`);
process.exitCode = differing.length === 0 ? 0 : 1;
