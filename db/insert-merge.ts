import { sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { event, expectation, expectedUnmerged, newestSeqOf } from "./events.ts";
import { configurationRows, type NewSetting } from "./insert-configuration.ts";
import { poolExpectations, poolRows, type Repooled } from "./insert-pooled.ts";
import { merges, settingMoves } from "./schema/configurations.ts";
import { entries } from "./schema/standings.ts";
import { sealed, sealedEntry } from "./seal.ts";

export interface Merge {
  readonly configuration: string;
  readonly into: string;
  readonly actor: string;
  readonly reason: string;
  readonly at: string;
  /** Each setting of the one with the folded label of the other's that takes its trials. */
  readonly moves: readonly { readonly from: number; readonly folded: string }[];
  /** Settings that the other lacks. */
  readonly newSettings: readonly NewSetting[];
  readonly newEntries: readonly {
    readonly id: string;
    readonly folded: string;
    readonly band: string;
    readonly invented: boolean;
  }[];
  /** How many entries the one had when they were read. */
  readonly readEntries: number;
  readonly pools: Repooled;
}

/** Merges a configuration into another: where its trials count from now on, and the figures of both sides, in one batch. */
export async function insertMerge(connection: Connection, it: Merge): Promise<void> {
  const { configuration, into, actor, reason, at } = it;
  const settingOf = (folded: string) =>
    sql<number>`(SELECT id FROM settings WHERE configuration = ${into} AND folded = ${folded})`;
  await connection.batch([
    event(connection, { at, kind: "configuration-merged", subject: configuration, actor, reason }),
    ...poolExpectations(connection, it.pools),
    expectation(connection, expectedUnmerged(configuration), "not merged"),
    expectation(connection, expectedUnmerged(into), "not merged"),
    expectation(
      connection,
      sql`(SELECT count(*) FROM settings WHERE configuration = ${configuration}) = ${it.moves.length}`,
      "no other setting",
    ),
    expectation(
      connection,
      sql`(SELECT count(*) FROM entries e JOIN settings s ON s.id = e.setting WHERE s.configuration = ${configuration}) = ${it.readEntries}`,
      "no other entry",
    ),
    ...configurationRows(connection, { created: null, newSettings: it.newSettings, submitter: actor, at }),
    connection.insert(merges).values(sealed(merges, { configuration, into, reason, at })),
    ...it.moves.map(({ from, folded }) => connection.insert(settingMoves).values({ from, to: settingOf(folded) })),
    ...it.newEntries.map(({ id, folded, band, invented }) =>
      connection.insert(entries).values({
        ...sealedEntry({ id, band, invented, createdAt: at }, { configuration: into, folded }),
        setting: settingOf(folded),
      }),
    ),
    ...poolRows(connection, it.pools, newestSeqOf(configuration)),
  ]);
}
