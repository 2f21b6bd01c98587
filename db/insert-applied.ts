import type { Connection } from "./database.ts";
import { event, newestSeqOf } from "./events.ts";
import { poolExpectations, poolRows, type Repooled } from "./insert-pooled.ts";

export interface Applied {
  readonly kind: "method-applied" | "spread-applied";
  readonly upTo: string;
  readonly at: string;
  readonly pools: Repooled;
}

/**
 * New figures of entries that were pooled with another spread or method. The event names the last of them: all up to it are
 * done, which is what a rebuild needs to know.
 */
export async function insertApplied(connection: Connection, { kind, upTo, at, pools }: Applied): Promise<void> {
  await connection.batch([
    event(connection, { at, kind, subject: upTo, actor: "registry" }),
    ...poolExpectations(connection, pools),
    ...poolRows(connection, pools, newestSeqOf(upTo)),
  ]);
}
