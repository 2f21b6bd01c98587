import { checkMigrations } from "../../../db/fixity/check-migrations.ts";
import { inPlainWords, requireDatabase } from "../../node-command.ts";
import { openNode, readSettings } from "../../node-settings.ts";
import { verify } from "./verify.ts";

/* `npm run verify -- 100`: reads the database at LIBSQL_URL whole, and tells what is not as it was written. */
await inPlainWords(async () => {
  const settings = readSettings(process.env, "file:.data/motefall.db");
  requireDatabase(settings.libsqlUrl);
  const deps = await openNode(settings);
  const { damages, checked, reanalysed } = await verify(deps.db.read, Number(process.argv[2] ?? 100));
  const all = [...damages, ...(await checkMigrations(deps.db.read))];
  deps.db.close();
  for (const { table, key, what } of all) console.log(`${table} ${key}: ${what}`);
  const erased = reanalysed.erased > 0 ? `, of ${reanalysed.erased} the readings are erased` : "";
  console.log(
    `${checked.rows} rows read, ${checked.erased} of them erased on purpose; ${reanalysed.same} results came out again to the last digit${erased}`,
  );
  console.log(all.length === 0 ? "Everything is as it was written" : `${all.length} damages`);
  process.exitCode = all.length === 0 ? 0 : 1;
});
