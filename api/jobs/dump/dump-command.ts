import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { createClient } from "@libsql/client";
import { listDumps } from "../../node-dumps.ts";
import { readSettings } from "../../node-settings.ts";
import { dump } from "./dump.ts";

/* `npm run dump -- FOLDER`: all that is stored in the database at LIBSQL_URL, in a new folder of FOLDER. */
const into = process.argv[2] ?? process.env.DUMPS_DIR;
if (!into) {
  console.error("npm run dump -- FOLDER");
  process.exit(2);
}
const { libsqlUrl, authToken } = readSettings(process.env, "file:.data/motefall.db");
const client = createClient({ url: libsqlUrl, authToken });
const made = await dump(client, into);
writeFileSync(join(into, "dumps.json"), `${JSON.stringify(listDumps(into), null, 2)}\n`);
console.log(`${made}: open/ is for everybody, kept/ for the registry's own return`);
client.close();
