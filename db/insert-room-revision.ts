import { sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { event, expectation, expectedRoomRevision, expectedUnmoved, newestSeqOf } from "./events.ts";
import { poolExpectations, poolRows, type Repooled } from "./insert-pooled.ts";
import { roomRevisions } from "./schema/identity.ts";
import { sealed } from "./seal.ts";

/** Corrects a room's volume: another revision, and the figures of every entry that a trial made in it counts in, in one batch. */
export async function insertRoomRevision(
  connection: Connection,
  it: {
    revision: typeof roomRevisions.$inferInsert;
    actor: string;
    reason: string;
    /** The newest seq of the states of the room's trials when their entries were read, and the settings they counted at. */
    readStates: number;
    readSettings: readonly number[];
    pools: Repooled;
  },
): Promise<void> {
  const { revision, actor, reason, readStates, readSettings, pools } = it;
  const { room, at } = revision;
  await connection.batch([
    event(connection, { at, kind: "room-corrected", subject: room, actor, reason }),
    ...poolExpectations(connection, pools),
    expectation(connection, expectedRoomRevision(room, revision.revision - 1), `room ${room}`),
    expectation(
      connection,
      sql`(SELECT max(s.seq) FROM trials t JOIN trial_states s ON s.trial = t.id WHERE t.room = ${room}) = ${readStates}`,
      "no other trial",
    ),
    ...readSettings.map((setting) => expectation(connection, expectedUnmoved(setting), "not moved")),
    connection.insert(roomRevisions).values(sealed(roomRevisions, revision)),
    ...poolRows(connection, pools, newestSeqOf(room)),
  ]);
}
