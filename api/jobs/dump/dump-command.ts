import { writeDumpsList } from "../../node-dumps.ts";
import { readSettings } from "../../node-settings.ts";
import { dumpRegistry } from "./dump-registry.ts";

/* `npm run dump -- FOLDER`: all that is stored in the database at LIBSQL_URL, in a new folder of FOLDER. */
const into = process.argv[2] ?? process.env.DUMPS_DIR;
if (!into) {
  console.error("npm run dump -- FOLDER");
  process.exit(2);
}
const { libsqlUrl: url, authToken } = readSettings(process.env, "file:.data/motefall.db");
const made = await dumpRegistry({ url, authToken }, into);
writeDumpsList(into);
console.log(`${made}: open/ is for everybody, kept/ for the registry's own return`);
