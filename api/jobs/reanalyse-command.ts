import { METHOD_VERSION } from "../../analysis/method-version.ts";
import { openNode, readSettings } from "../node-settings.ts";
import { reanalyse } from "./reanalyse.ts";

/* `npm run reanalyse`: what the running method version says of every trial in the database at LIBSQL_URL, beside what older ones say. */
const deps = await openNode(readSettings(process.env, "file:.data/motefall.db"));
const { analysed, kept, adoption, repooled } = await reanalyse(deps);
deps.db.close();
console.log(`${analysed} trials analysed by method ${METHOD_VERSION}; ${repooled} entries pooled again`);
if (kept > 0) console.log(`${kept} trials keep an older result, for their readings were erased`);
console.log(`Readers see method ${adoption.version}, adopted on ${adoption.at.slice(0, 10)}`);
