import { and, eq, gt, inArray } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { roomRevisions } from "./schema/identity.ts";
import { events } from "./schema/standings.ts";

export interface RoomCorrection {
  readonly revision: number;
  readonly at: string;
  readonly reason: string | null;
}

/** The newest correction of each of these rooms whose volume was ever corrected, with its reason. */
export async function listRoomCorrections(
  connection: Connection,
  rooms: readonly string[],
): Promise<ReadonlyMap<string, RoomCorrection>> {
  if (rooms.length === 0) return new Map();
  const [revisions, reasons] = await connection.batch([
    connection
      .select({ room: roomRevisions.room, revision: roomRevisions.revision, at: roomRevisions.at })
      .from(roomRevisions)
      .where(and(inArray(roomRevisions.room, [...rooms]), gt(roomRevisions.revision, 1)))
      .orderBy(roomRevisions.revision),
    connection
      .select({ room: events.subject, reason: events.reason })
      .from(events)
      .where(and(inArray(events.subject, [...rooms]), eq(events.kind, "room-corrected")))
      .orderBy(events.seq),
  ]);
  const newestReason = new Map(reasons.map(({ room, reason }) => [room, reason]));
  return new Map(
    revisions.map(({ room, revision, at }) => [room, { revision, at, reason: newestReason.get(room) ?? null }]),
  );
}
