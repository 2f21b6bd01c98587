import { canonicalJson, sha256Hex } from "../../db/content-hash.ts";
import { listCorrections } from "../../db/corrections.ts";
import type { Database } from "../../db/database.ts";
import { listWithdrawals } from "../../db/pinned-rows.ts";
import type { PinnedResult } from "../wire/pinned.ts";
import type { Pin } from "./pin.ts";
import { pinEntry } from "./pin-entry.ts";
import { pinTrial } from "./pin-trial.ts";

/**
 * A pinned result: what never changes, its hash, and what became of the record since.
 * @throws StoreError "not-found" where there never was such a figure
 */
export async function readPin(db: Database, publicUrl: string, pin: Pin): Promise<PinnedResult> {
  const pinned = pin.kind === "trial" ? await pinTrial(db.read, pin) : await pinEntry(db.read, pin);
  const quoted = pinned.kind === "trial" ? [pinned] : pinned.members;
  const members = quoted.map(({ trial }) => trial);
  const withdrawals = await listWithdrawals(db.read, members);
  const last = withdrawals.at(-1);
  return {
    pinned,
    sha256: await sha256Hex(canonicalJson(pinned)),
    url: `${publicUrl}/v1${pinned.path}`,
    page: `${publicUrl}${pinned.path}`,
    withdrawn: last && withdrawals.length === members.length ? { at: last.at, reason: last.reason } : null,
    withdrawn_members: pinned.kind === "trial" ? [] : withdrawals,
    corrections: await listCorrections(db.read, quoted),
  };
}
