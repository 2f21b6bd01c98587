import { parseArgs } from "node:util";
import { createClient } from "@libsql/client";
import { createRandom } from "../../analysis/simulate/random.ts";
import { verify } from "../../api/jobs/verify/verify.ts";
import { checkMigrations } from "../../db/fixity/check-migrations.ts";
import { damageOne, disarm } from "../support/damage.ts";
import { startInProcess } from "../support/in-process.ts";
import { operate } from "../support/random-registry.ts";
import { addRareRows } from "../support/rare-rows.ts";

/* tsx test/campaigns/damage.ts --changes 1000 --seed 3: one byte of one stored value at a time, and whether `verify` finds it. */
const { values } = parseArgs({ options: { changes: { type: "string" }, seed: { type: "string" } } });
const wanted = Number(values.changes ?? 1000);
const seed = Number(values.seed ?? 3);
const target = await startInProcess();
console.log(await operate(target, seed, 60));
await addRareRows(target);
const { db } = target.deps;
const client = createClient({ url: target.databaseUrl });
await disarm(client);
const random = createRandom(seed);
const tried = new Map<string, number>();
let missed = 0;
for (let n = 0; n < wanted; ) {
  const damaged = await damageOne(client, random);
  if (!damaged) continue;
  n++;
  const { table, column, was, is } = damaged;
  tried.set(table, (tried.get(table) ?? 0) + 1);
  const found = (await verify(db.read, 0)).damages.length + (await checkMigrations(db.read)).length;
  if (found === 0) {
    missed++;
    console.log(`missed ${table}.${column}: ${was} → ${is}`);
  }
  await damaged.undo();
}
const left = (await verify(db.read, 0)).damages;
console.log(
  [...tried]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([table, count]) => `${table} ${count}`)
    .join(", "),
);
console.log(`${wanted - missed} of ${wanted} changes found; ${left.length} damages left when all was put back`);
client.close();
await target.stop();
process.exitCode = missed + left.length === 0 ? 0 : 1;
