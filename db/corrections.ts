import { inArray } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { trialRevisions } from "./schema/trials.ts";

type Member = Pick<typeof trialRevisions.$inferSelect, "trial" | "revision">;

/**
 * Where a later revision of a trial says otherwise who paid or what was in the air than one that was quoted: both as they
 * stood and as the newest has them, with the amendment that last changed them.
 */
export async function listCorrections(connection: Connection, members: readonly Member[]) {
  if (members.length === 0) return [];
  const { trial, revision, at, reason, interest, aerosol } = trialRevisions;
  const rows = await connection
    .select({ trial, revision, at, reason, interest, aerosol })
    .from(trialRevisions)
    .where(inArray(trial, [...new Set(members.map((member) => member.trial))]))
    .orderBy(trial, revision);
  const byTrial = Map.groupBy(rows, (row) => row.trial);
  return members.flatMap((member) => {
    const said = (byTrial.get(member.trial) ?? []).filter((row) => row.revision >= member.revision);
    const [then, newest] = [said[0], said.at(-1)];
    if (!then || !newest || (then.interest === newest.interest && then.aerosol === newest.aerosol)) return [];
    const last = said.findLast((row, i) => {
      const before = said[i - 1];
      return before && (before.interest !== row.interest || before.aerosol !== row.aerosol);
    })!;
    return {
      trial: member.trial,
      revision: last.revision,
      at: last.at,
      reason: last.reason,
      interest: { from: then.interest, to: newest.interest },
      aerosol: { from: then.aerosol, to: newest.aerosol },
    };
  });
}
