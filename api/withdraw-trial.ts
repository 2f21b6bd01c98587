import { findPooled, listEntries, listMembers } from "../db/entries.ts";
import { findTrial, insertWithdrawal } from "../db/trials.ts";
import type { Dependencies } from "./environment.ts";
import { poolEntry } from "./pool-entry.ts";
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
      const entries = await listEntries(connection, trial.setting, trial.invented);
      const changed = await Promise.all(
        entries.map(async (entry) => {
          const before = await findPooled(connection, entry.id);
          if (!before) return [];
          const members = await listMembers(connection, entry, before.methodVersion);
          const rest = members.filter((member) => member.trial !== id);
          if (rest.length === members.length) return [];
          return [
            {
              read: { entry: entry.id, seq: before.seq },
              pooled: await poolEntry(entry.id, rest, before.methodVersion),
            },
          ];
        }),
      );
      const flat = changed.flat();
      await insertWithdrawal(connection, {
        trial: id,
        actor,
        reason,
        at: now().toISOString(),
        pooled: flat.map(({ pooled }) => pooled),
        readSeqs: flat.map(({ read }) => read),
      });
    }),
  );
}
