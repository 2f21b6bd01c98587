import { insertWithdrawal } from "../db/insert-withdrawal.ts";
import { readEntries } from "../db/members.ts";
import { findMovedSetting } from "../db/moves.ts";
import { findTrial } from "../db/trials.ts";
import type { Dependencies } from "./environment.ts";
import { repool } from "./repool.ts";
import { retrying } from "./store-trial.ts";

/** Withdraws a trial and pools its entries without it, in one step; withdrawing twice changes nothing. */
export async function withdrawTrial(
  { db, now }: Dependencies,
  id: string,
  actor: string,
  reason: string,
): Promise<void> {
  await retrying(() =>
    db.write(async (connection) => {
      const trial = await findTrial(connection, id);
      if (trial.state === "withdrawn") return;
      const setting = await findMovedSetting(connection, trial.setting);
      const entries = await readEntries(connection, setting, trial.invented);
      const changes = entries.flatMap((state) => {
        const rest = state.members.filter((member) => member.trial !== id);
        return rest.length === state.members.length ? [] : [{ state, members: rest }];
      });
      const pools = await repool(connection, changes);
      await insertWithdrawal(connection, {
        trial: id,
        actor,
        reason,
        at: now().toISOString(),
        readState: trial.state,
        readSetting: setting,
        pools,
      });
    }),
  );
}
