import { type Adoption, findAdoption } from "../db/adoptions.ts";
import type { Connection } from "../db/database.ts";
import type { Repooled } from "../db/insert-pooled.ts";
import type { EntryState, Member } from "../db/members.ts";
import { findSpread, type StoredSpread } from "../db/spreads.ts";
import { poolEntry } from "./pool-entry.ts";

/** An entry as it stood, and those who will count in it. */
export interface Change {
  readonly state: Pick<EntryState, "previous" | "seq"> &
    Partial<Pick<EntryState, "adopted">> & { readonly entry: { readonly id: string } };
  readonly members: readonly Member[];
}

/** What holds for all entries, where the caller has read it. */
export interface Known {
  readonly spread?: StoredSpread;
  readonly adoption?: Adoption;
}

/** New figures of every entry that changes, with what a writer must compare before it adds them. */
export async function repool(connection: Connection, changes: readonly Change[], known: Known = {}): Promise<Repooled> {
  const spread = known.spread ?? (await findSpread(connection));
  const method = known.adoption ?? (await findAdoption(connection));
  const rows = await Promise.all(
    changes.map(({ state, members }) => poolEntry(state.entry.id, members, state.previous, spread, method.version)),
  );
  return {
    rows: rows.flat(),
    readSeqs: changes.map(({ state }) => ({ entry: state.entry.id, seq: state.seq })),
    readSpread: spread.id,
    // The oldest that any of it was read under: adopted in between, the batch fails and is made anew.
    readAdoption: Math.min(method.ordinal, ...changes.flatMap(({ state }) => state.adopted ?? [])),
  };
}
