import type { Connection } from "../../db/database.ts";
import { findPinnedPooled, findWordsAt } from "../../db/pinned-rows.ts";
import { StoreError } from "../../db/store-error.ts";
import type { PinnedEntry } from "../wire/pinned.ts";
import { writeBasis } from "../write-basis.ts";
import { writeCadr } from "../write-ranked-entry.ts";
import { findMembersAt } from "./members-at.ts";
import { type EntryPin, pinPath } from "./pin.ts";

/**
 * A pooled row with those it was made from. Rows are kept, and a rebuild makes them again to the same bytes; the members
 * are found again from what happened up to the row's event, and must hash to what stands in it.
 * @throws StoreError "not-found" where that event made no figure of the entry
 */
export async function pinEntry(connection: Connection, pin: EntryPin): Promise<PinnedEntry> {
  const stored = await findPinnedPooled(connection, pin.entry, pin.basis, pin.seq);
  const cadr = stored && writeCadr(stored.pooled, "m3/h");
  const cfm = stored && writeCadr(stored.pooled, "[cft_i]/min");
  if (!stored || !cadr || !cfm) throw new StoreError("not-found", `No figure is stored at ${pinPath(pin)}.`);
  const { pooled, entry, setting, spread } = stored;
  const basis = writeBasis({ pooled, spread }, null, "m3/h");
  return {
    kind: "entry",
    entry: entry.id,
    basis: pooled.basis,
    seq: pooled.seq,
    path: pinPath(pin),
    band: entry.band,
    invented: entry.invented,
    configuration: await findWordsAt(connection, setting.configuration, pooled.seq),
    setting: setting.label,
    cadr,
    cadr_cfm: cfm,
    interval_of: "between_laboratories",
    aerosols: basis.aerosols,
    interest: basis.interest,
    prediction: basis.prediction,
    tau: basis.tau,
    i2: basis.i2,
    q: basis.q,
    spread: basis.spread,
    left_out_change: basis.left_out_change,
    trials: pooled.trials,
    rooms: pooled.rooms,
    submitters: pooled.submitters,
    unpaired: pooled.unpaired,
    serious: pooled.serious,
    members: await findMembersAt(connection, stored),
    members_sha256: pooled.membersHash,
    method_version: pooled.methodVersion,
    stored_at: stored.at,
    licence: "CC0-1.0",
  };
}
