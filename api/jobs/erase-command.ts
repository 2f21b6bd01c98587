import { openNode, readSettings } from "../node-settings.ts";
import { parseId } from "../public-id.ts";
import { ERASABLE, type Erasable, eraseFromTrial } from "./erase.ts";

/* `npm run erase -- trl-… words|questions|files|series|handle "the reason"`: the operator's way to take down what must not stay. */
const [id = "", what = "", reason = ""] = process.argv.slice(2);
if (!(ERASABLE as readonly string[]).includes(what) || reason.trim() === "") {
  console.error('Use: npm run erase -- trl-… words|questions|files|series|handle "the reason"');
  process.exit(2);
}
const deps = await openNode(readSettings(process.env, "file:.data/motefall.db"));
const count = await eraseFromTrial(
  deps.db,
  parseId("trial", id),
  what as Erasable,
  reason.trim(),
  deps.now().toISOString(),
);
deps.db.close();
console.log(`Erased ${count} ${what} of ${id}`);
