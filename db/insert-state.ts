import { eq, sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { event, expectation, expectedUnmoved, newestSeqOf } from "./events.ts";
import { poolExpectations, poolRows, type Repooled } from "./insert-pooled.ts";
import { trialStates } from "./schema/standings.ts";

/** What a trial may be made by someone's decision; questioned it becomes by a question. */
export type DecidedState = "listed" | "pending" | "withdrawn";

const EVENT = { listed: "trial-listed", pending: "trial-held", withdrawn: "trial-withdrawn" } as const;

/** Gives a trial another state: an event, the state and the figures of its entries with or without it, in one batch. */
export async function insertState(
  connection: Connection,
  it: {
    trial: string;
    state: DecidedState;
    actor: string;
    reason: string;
    /** The rules that hold it, as the log keeps them; none where a person decided. */
    doubts: readonly string[];
    at: string;
    /** What its state was, and the setting it counted at, when its entries were read. */
    readState: string;
    readSetting: number;
    pools: Repooled;
  },
): Promise<void> {
  const { trial, state, actor, reason, at, pools } = it;
  await connection.batch([
    event(connection, { at, kind: EVENT[state], subject: trial, actor, reason }),
    ...poolExpectations(connection, pools),
    expectation(connection, sql`(SELECT state FROM trial_states WHERE trial = ${trial}) = ${it.readState}`, "state"),
    expectation(connection, expectedUnmoved(it.readSetting), "not moved"),
    connection
      .update(trialStates)
      .set({ state, seq: newestSeqOf(trial) })
      .where(eq(trialStates.trial, trial)),
    ...poolRows(connection, pools, newestSeqOf(trial)),
    ...it.doubts.map((doubt) => event(connection, { at, kind: "trial-doubted", subject: trial, actor, reason: doubt })),
  ]);
}
