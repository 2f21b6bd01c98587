import { eq, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Connection } from "./database.ts";
import { event, expectation, expectedAdoption, expectedUnmoved, newestSeqOf } from "./events.ts";
import { poolExpectations, poolRows, type Repooled } from "./insert-pooled.ts";
import { settings } from "./schema/configurations.ts";
import { entries } from "./schema/standings.ts";
import { resultBands, results } from "./schema/trials.ts";
import { type NamedSetting, sealed, sealedEntry } from "./seal.ts";

/** What another method version says of a stored trial, and what its writer had read. */
export interface Reanalysis {
  readonly result: typeof results.$inferInsert;
  readonly bands: readonly (typeof resultBands.$inferInsert)[];
  /** For bands that no trial of its setting had before. */
  readonly newEntries: readonly (typeof entries.$inferInsert)[];
  readonly named: NamedSetting;
  readonly readSetting: number;
  readonly readAdoption: number;
  /** Its version is adopted already, so that it counts at once; else null, and it changes nothing that readers see. */
  readonly late: { readonly readState: string; readonly pools: Repooled } | null;
}

/** Adds a result beside the older ones of the same revision, in one batch. */
export async function insertReanalysis(connection: Connection, it: Reanalysis): Promise<void> {
  const { trial, revision, methodVersion, at } = it.result;
  const late: BatchItem<"sqlite">[] = it.late
    ? [
        event(connection, {
          at,
          kind: "method-applied",
          subject: trial,
          actor: "registry",
          reason: latecomerReason(revision, methodVersion),
        }),
        ...poolExpectations(connection, it.late.pools),
        expectation(
          connection,
          sql`(SELECT state FROM trial_states WHERE trial = ${trial}) = ${it.late.readState}`,
          "state",
        ),
      ]
    : [];
  await connection.batch([
    connection.insert(results).values(sealed(results, it.result)),
    expectation(
      connection,
      sql`(SELECT max(revision) FROM trial_revisions WHERE trial = ${trial}) = ${revision}`,
      "newest revision",
    ),
    expectation(connection, expectedUnmoved(it.readSetting), "not moved"),
    expectation(connection, expectedAdoption(it.readAdoption), "method"),
    ...late,
    ...it.bands.map((row) => connection.insert(resultBands).values(sealed(resultBands, row))),
    ...it.newEntries.map(({ setting, ...row }) =>
      connection.insert(entries).values({ ...sealedEntry(row, it.named), setting }),
    ),
    ...(it.late ? poolRows(connection, it.late.pools, newestSeqOf(trial)) : []),
  ]);
}

/** How the log names a result that came after its version was adopted: a rebuild counts it from there on. */
export function latecomerReason(revision: number, version: string): string {
  return `method ${version}, revision ${revision}`;
}

/** What a setting is known by. */
export async function findNamedSetting(connection: Connection, id: number): Promise<NamedSetting> {
  const columns = { configuration: settings.configuration, folded: settings.folded };
  const [row] = await connection.select(columns).from(settings).where(eq(settings.id, id));
  if (!row) throw new Error(`no setting ${id}`); // never removed: trials point at it
  return row;
}
