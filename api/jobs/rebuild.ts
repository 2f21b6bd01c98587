import type { Database } from "../../db/database.ts";
import { insertMeasures, listUnmeasured, replaceDerived } from "../../db/derived.ts";
import { insertFingerprints, listUnmarked } from "../../db/fingerprints.ts";
import { replaceTraits } from "../../db/traits.ts";
import { findSeries } from "../../db/trials.ts";
import { fingerprintsOf } from "../doubt/find-doubts.ts";
import { unpackSeries } from "../series-blob.ts";
import { measuresOf } from "../trial-measures.ts";
import { derive } from "./derive.ts";

/**
 * Makes the derived tables anew by replaying the events over the stored results and spreads: nothing is analysed or learnt
 * again, so states and pooled figures come out as they were. In a database from before measures and fingerprints
 * had a table, they are first taken from the records and readings.
 */
export async function rebuild(db: Database): Promise<{ events: number; pooled: number }> {
  return db.write(async (connection) => {
    for (;;) {
      const unmeasured = await listUnmeasured(connection, 500);
      if (unmeasured.length === 0) break;
      const rows = unmeasured.map(({ trial, revision, json }) => measuresOf(trial, revision, JSON.parse(json)));
      await insertMeasures(connection, rows);
    }
    for (const { series, ...run } of await listUnmarked(connection)) {
      const hashes = fingerprintsOf(unpackSeries(await findSeries(connection, series)));
      await insertFingerprints(
        connection,
        hashes.map((hash) => ({ hash, ...run })),
      );
    }
    const { events, states, pooled, traits } = await derive(connection);
    await replaceDerived(connection, states, pooled);
    await replaceTraits(connection, traits);
    return { events, pooled: pooled.length };
  });
}
