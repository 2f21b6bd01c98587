import { parseArgs } from "node:util";
import { createClient } from "@libsql/client";
import { rebuild } from "../../api/jobs/rebuild.ts";
import { startInProcess } from "../support/in-process.ts";
import { operate } from "../support/random-registry.ts";
import { tableContents } from "../support/table-contents.ts";

/* tsx test/campaigns/rebuild.ts --operations 500 --seed 1: whether a rebuild gives the bytes that stood. */
const { values } = parseArgs({ options: { operations: { type: "string" }, seed: { type: "string" } } });
const target = await startInProcess();
const counts = await operate(target, Number(values.seed ?? 1), Number(values.operations ?? 500));
console.log(counts);
const client = createClient({ url: target.databaseUrl });
const before = await tableContents(client);
console.log(`${before.spreads!.length} spreads, ${before.pooled!.length} pooled figures`);
await client.executeMultiple("DELETE FROM standings; DELETE FROM pooled; DELETE FROM trial_states");
const started = performance.now();
console.log(await rebuild(target.deps.db), `in ${Math.round(performance.now() - started)} ms`);
const after = await tableContents(client);
const differing = Object.keys(before).filter((table) => JSON.stringify(before[table]) !== JSON.stringify(after[table]));
for (const table of differing) console.log(`${table} differs`);
console.log(differing.length === 0 ? "All tables as they stood, byte for byte" : "The rebuild differs");
client.close();
await target.stop();
process.exitCode = differing.length === 0 ? 0 : 1;
