import { eq, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Connection } from "./database.ts";
import { event, expectation, expectedAdoption, expectedUnmoved, newestSeqOf } from "./events.ts";
import { poolExpectations, poolRows, type Repooled } from "./insert-pooled.ts";
import { words } from "./schema/identity.ts";
import { entries, trialStates } from "./schema/standings.ts";
import { resultBands, results, runs, trialMeasures, trialRevisions } from "./schema/trials.ts";
import { type NamedSetting, sealed, sealedEntry } from "./seal.ts";
import type { NewWord } from "./words.ts";

type Row<T extends { $inferInsert: unknown }> = T["$inferInsert"];

/** Everything that an amendment adds, and what its writer had read. */
export interface Amendment {
  readonly revision: Row<typeof trialRevisions>;
  readonly actor: string;
  readonly words: readonly NewWord[];
  readonly runs: readonly Row<typeof runs>[];
  readonly result: Row<typeof results>;
  readonly bands: readonly Row<typeof resultBands>[];
  readonly measures: Row<typeof trialMeasures>;
  readonly newEntries: readonly Row<typeof entries>[];
  readonly named: NamedSetting;
  /** Why it waits for a person from now on, as the log keeps it; with none its state stays. */
  readonly doubts: readonly string[];
  readonly readState: string;
  readonly readSetting: number;
  readonly readAdoption: number;
  readonly pools: Repooled;
}

/** Adds another revision of a trial with its result and the new figures of its entries, in one batch. */
export async function insertAmendment(connection: Connection, it: Amendment): Promise<void> {
  const { trial, revision, at, reason } = it.revision;
  const amended = event(connection, {
    at,
    kind: "trial-amended",
    subject: trial,
    actor: it.actor,
    reason: reason ?? null,
  });
  // Held first, so that whoever replays the log never counts figures that a rule doubts.
  const held = it.doubts.length > 0 ? holding(connection, it) : null;
  await connection.batch([
    held ? held[0] : amended,
    ...poolExpectations(connection, it.pools),
    expectation(connection, sql`(SELECT state FROM trial_states WHERE trial = ${trial}) = ${it.readState}`, "state"),
    expectation(
      connection,
      sql`(SELECT max(revision) FROM trial_revisions WHERE trial = ${trial}) = ${revision - 1}`,
      "newest revision",
    ),
    expectation(connection, expectedUnmoved(it.readSetting), "not moved"),
    expectation(connection, expectedAdoption(it.readAdoption), "method"),
    ...(held ? [...held[1], amended] : []),
    ...it.words.map((word) => connection.insert(words).values(sealed(words, word))),
    connection.insert(trialRevisions).values(sealed(trialRevisions, it.revision)),
    ...it.runs.map((row) => connection.insert(runs).values(sealed(runs, row))),
    connection.insert(results).values(sealed(results, it.result)),
    ...it.bands.map((row) => connection.insert(resultBands).values(sealed(resultBands, row))),
    connection.insert(trialMeasures).values(sealed(trialMeasures, it.measures)),
    ...it.newEntries.map(({ setting, ...row }) =>
      connection.insert(entries).values({ ...sealedEntry(row, it.named), setting }),
    ),
    ...(held ? [] : poolRows(connection, it.pools, newestSeqOf(trial))),
  ]);
}

/** The line of the log that holds a trial, and what follows from it. */
function holding(connection: Connection, it: Amendment): [BatchItem<"sqlite">, BatchItem<"sqlite">[]] {
  const { trial, at } = it.revision;
  const reason = "amended so that a stated rule doubts it";
  return [
    event(connection, { at, kind: "trial-held", subject: trial, actor: "rule", reason }),
    [
      connection
        .update(trialStates)
        .set({ state: "pending", seq: newestSeqOf(trial) })
        .where(eq(trialStates.trial, trial)),
      ...poolRows(connection, it.pools, newestSeqOf(trial)),
      ...it.doubts.map((doubt) =>
        event(connection, { at, kind: "trial-doubted", subject: trial, actor: "rule", reason: doubt }),
      ),
    ],
  ];
}
