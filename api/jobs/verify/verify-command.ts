import { checkMigrations } from "../../../db/fixity/check-migrations.ts";
import { openNode, readSettings } from "../../node-settings.ts";
import { verify } from "./verify.ts";

/* `npm run verify -- 100`: reads the database at LIBSQL_URL whole, and tells what is not as it was written. */
const sample = Number(process.argv[2] ?? 100);
const deps = await openNode(readSettings(process.env, "file:.data/motefall.db"));
const { damages, checked, reanalysed } = await verify(deps.db.read, sample);
const all = [...damages, ...(await checkMigrations(deps.db.read))];
deps.db.close();
for (const { table, key, what } of all) console.log(`${table} ${key}: ${what}`);
console.log(
  `${checked.rows} rows read, ${checked.erased} of them erased on purpose; ${reanalysed.same} results came out again to the last digit` +
    (reanalysed.erased > 0 ? `, of ${reanalysed.erased} the readings are erased` : ""),
);
console.log(all.length === 0 ? "Everything is as it was written" : `${all.length} damages`);
process.exitCode = all.length === 0 ? 0 : 1;
