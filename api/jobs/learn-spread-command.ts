import { openNode, readSettings } from "../node-settings.ts";
import { learnSpreadAnew } from "./learn-spread.ts";

/* `npm run learn-spread`: how much laboratories differ, learnt from what the database at LIBSQL_URL holds by now. */
const deps = await openNode(readSettings(process.env, "file:.data/motefall.db"));
const { spread, learnt, repooled } = await learnSpreadAnew(deps.db, deps.now);
deps.db.close();
const value = `${(100 * spread.relative).toFixed(1)} % with ${spread.dof.toFixed(1)} degrees of freedom, ${spread.source}`;
console.log(`${learnt ? "Learnt" : "Kept"}: laboratories differ by ${value}; ${repooled} entries pooled again`);
