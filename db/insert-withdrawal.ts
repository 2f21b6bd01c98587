import { eq, sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { event, expectation, expectedUnmoved, newestSeqOf } from "./events.ts";
import { poolExpectations, poolRows, type Repooled } from "./insert-pooled.ts";
import { trialStates } from "./schema/standings.ts";

/** Withdraws a trial: an event, its new state and the figures of its entries without it, in one batch. */
export async function insertWithdrawal(
  connection: Connection,
  it: {
    trial: string;
    actor: string;
    reason: string;
    at: string;
    /** What the trial's state was, and the setting it counted at, when its entries were read. */
    readState: string;
    readSetting: number;
    pools: Repooled;
  },
): Promise<void> {
  const { trial, actor, reason, at, pools } = it;
  await connection.batch([
    event(connection, { at, kind: "trial-withdrawn", subject: trial, actor, reason }),
    ...poolExpectations(connection, pools),
    expectation(connection, sql`(SELECT state FROM trial_states WHERE trial = ${trial}) = ${it.readState}`, "state"),
    expectation(connection, expectedUnmoved(it.readSetting), "not moved"),
    connection
      .update(trialStates)
      .set({ state: "withdrawn", seq: newestSeqOf(trial) })
      .where(eq(trialStates.trial, trial)),
    ...poolRows(connection, pools, newestSeqOf(trial)),
  ]);
}
