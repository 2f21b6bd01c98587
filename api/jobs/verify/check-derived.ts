import type { Connection } from "../../../db/database.ts";
import { compareDerived } from "../../../db/fixity/compare-derived.ts";
import type { Damage } from "../../../db/fixity/damage.ts";
import { derive } from "../derive.ts";

/** Works derived tables out anew and compares every value with what is stored. */
export async function checkDerived(connection: Connection, found: Damage[]): Promise<void> {
  let derived: Awaited<ReturnType<typeof derive>>;
  try {
    derived = await derive(connection);
  } catch (error) {
    // What it is made of is damaged, and is reported by itself.
    const what = `it cannot be worked out from what is stored: ${(error as Error).message}`;
    found.push({ table: "derived tables", key: "", what });
    return;
  }
  await compareDerived(connection, found, derived);
}
