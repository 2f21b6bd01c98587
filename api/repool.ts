import type { Connection } from "../db/database.ts";
import type { Repooled } from "../db/insert-pooled.ts";
import type { EntryState, Member } from "../db/members.ts";
import { findSpread, type StoredSpread } from "../db/spreads.ts";
import { poolEntry } from "./pool-entry.ts";

/** An entry as it stood, and those who will count in it. */
export interface Change {
  readonly state: Pick<EntryState, "previous" | "seq"> & { readonly entry: { readonly id: string } };
  readonly members: readonly Member[];
}

/** New figures of every entry that changes, with what a writer must compare before it adds them. */
export async function repool(
  connection: Connection,
  changes: readonly Change[],
  known?: StoredSpread,
): Promise<Repooled> {
  const spread = known ?? (await findSpread(connection));
  const rows = await Promise.all(
    changes.map(({ state, members }) => poolEntry(state.entry.id, members, state.previous, spread)),
  );
  return {
    rows: rows.flat(),
    readSeqs: changes.map(({ state }) => ({ entry: state.entry.id, seq: state.seq })),
    readSpread: spread.id,
  };
}
