import { inPlainWords, requireDatabase } from "../../node-command.ts";
import { writeDumpsList } from "../../node-dumps.ts";
import { readSettings } from "../../node-settings.ts";
import { dumpRegistry } from "./dump-registry.ts";

/* `npm run dump -- FOLDER`: all that is stored in the database at LIBSQL_URL, in a new folder of FOLDER, by itself of DUMPS_DIR. */
await inPlainWords(async () => {
  const { libsqlUrl: url, authToken, dumpsDir } = readSettings(process.env, "file:.data/motefall.db");
  requireDatabase(url);
  const into = process.argv[2] ?? dumpsDir;
  const made = await dumpRegistry({ url, authToken }, into);
  writeDumpsList(into);
  console.log(`${made}: open/ is for everybody, kept/ for the registry's own return`);
});
