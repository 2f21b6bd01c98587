import { type DecidedState, insertState } from "../db/insert-state.ts";
import { listMembersOf, readEntries } from "../db/members.ts";
import { findMovedSetting } from "../db/moves.ts";
import { StoreError } from "../db/store-error.ts";
import { findTrial } from "../db/trials.ts";
import { HOW_ANEW } from "./amend-trial.ts";
import type { Dependencies } from "./environment.ts";
import { repool } from "./repool.ts";
import { retrying } from "./store-trial.ts";

/**
 * Lists, holds or withdraws a trial, and pools its entries with or without it, in one step. What it is already is left
 * alone. A question is laid to rest by listing.
 * @throws StoreError "withdrawn" where it was withdrawn before: that is for good
 */
export async function changeState(
  { db, now }: Dependencies,
  id: string,
  to: DecidedState,
  actor: string,
  reason: string,
  doubts: readonly string[] = [],
): Promise<void> {
  await retrying(() =>
    db.write(async (connection) => {
      const trial = await findTrial(connection, id);
      if (trial.state === to) return;
      if (trial.state === "withdrawn") {
        throw new StoreError("withdrawn", `${id} was withdrawn, which is for good. ${HOW_ANEW}`);
      }
      const setting = await findMovedSetting(connection, trial.setting);
      const entries = await readEntries(connection, setting, trial.invented);
      const own = to === "listed" ? await listMembersOf(connection, id) : [];
      const changes = entries.flatMap((state) => {
        const others = state.members.filter((member) => member.trial !== id);
        const self = own.filter(({ band }) => band === state.entry.band);
        const members = [...others, ...self];
        return members.length === state.members.length ? [] : [{ state, members }];
      });
      const pools = await repool(connection, changes);
      const at = now().toISOString();
      const read = { readState: trial.state, readSetting: setting };
      await insertState(connection, { trial: id, state: to, actor, reason, doubts, at, ...read, pools });
    }),
  );
}
