import { migrateDatabase } from "../../../db/migrate.ts";
import { inPlainWords, Refused } from "../../node-command.ts";
import { makeFolderOf, openNode, readSettings } from "../../node-settings.ts";
import { restore } from "./restore.ts";

/* `npm run restore -- FOLDER`: a dump into the empty database at LIBSQL_URL. */
await inPlainWords(async () => {
  const folder = process.argv[2];
  if (!folder) throw new Refused("npm run restore -- FOLDER, with LIBSQL_URL naming an empty database");
  const settings = readSettings(process.env, "file:.data/motefall.db");
  const { libsqlUrl: url, authToken } = settings;
  makeFolderOf(url);
  await migrateDatabase(url, authToken);
  const { db } = await openNode(settings);
  const { rows, differing } = await restore(folder, { url, authToken }, db).catch((error: Error) => {
    // A dump that is damaged or of another schema, a database that is not empty: nothing was written then.
    throw error.constructor === Error ? new Refused(error.message) : error;
  });
  db.close();
  console.log(`${rows} rows restored, derived tables made anew`);
  for (const table of differing) console.log(`${table} came out otherwise than the dump has it`);
  process.exitCode = differing.length === 0 ? 0 : 1;
});
