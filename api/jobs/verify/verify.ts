import type { Connection } from "../../../db/database.ts";
import { checkLinks } from "../../../db/fixity/check-links.ts";
import { checkRows, type RowsChecked } from "../../../db/fixity/check-rows.ts";
import type { Damage } from "../../../db/fixity/damage.ts";
import { checkDerived } from "./check-derived.ts";
import { checkResults, type Reanalysed } from "./check-results.ts";

export interface Verified {
  readonly damages: readonly Damage[];
  readonly checked: RowsChecked;
  readonly reanalysed: Reanalysed;
}

/**
 * Reads everything that is stored and tells what is not as it was written: each row and content by its hash, each number of
 * the database by what it points at, derived tables by working them out anew, a sample of results by analysing again.
 */
export async function verify(connection: Connection, sample: number): Promise<Verified> {
  const damages: Damage[] = [];
  const checked = await checkRows(connection, damages);
  await checkLinks(connection, damages);
  await checkDerived(connection, damages);
  const reanalysed = await checkResults(connection, damages, sample);
  return { damages, checked, reanalysed };
}
