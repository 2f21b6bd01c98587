import { sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { event, expectation, expectedRoomRevision, newestSeqOf } from "./events.ts";
import { poolExpectations, poolRows, type Repooled } from "./insert-pooled.ts";
import { roomRevisions } from "./schema/identity.ts";

/** Corrects a room's volume: another revision, and the figures of every entry that a trial made in it counts in, in one batch. */
export async function insertRoomRevision(
  connection: Connection,
  it: {
    revision: typeof roomRevisions.$inferInsert;
    actor: string;
    reason: string;
    /** How many trials the room had when their entries were read. */
    readTrials: number;
    pools: Repooled;
  },
): Promise<void> {
  const { revision, actor, reason, readTrials, pools } = it;
  const { room, at } = revision;
  await connection.batch([
    event(connection, { at, kind: "room-corrected", subject: room, actor, reason }),
    ...poolExpectations(connection, pools),
    expectation(connection, expectedRoomRevision(room, revision.revision - 1), `room ${room}`),
    expectation(connection, sql`(SELECT count(*) FROM trials WHERE room = ${room}) = ${readTrials}`, "no other trial"),
    connection.insert(roomRevisions).values(revision),
    ...poolRows(connection, pools, newestSeqOf(room)),
  ]);
}
