import { openNode, readSettings } from "../node-settings.ts";
import { rebuild } from "./rebuild.ts";

/* `npm run rebuild`: derived tables of the database at LIBSQL_URL, made anew from what was stored. */
const deps = await openNode(readSettings(process.env, "file:.data/motefall.db"));
const { events, pooled } = await rebuild(deps.db);
deps.db.close();
console.log(`Replayed ${events} events into ${pooled} pooled figures`);
