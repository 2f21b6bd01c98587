import { and, desc, eq } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { roomRevisions, rooms } from "./schema/identity.ts";

export interface StoredRoom {
  readonly id: string;
  readonly revision: number;
  readonly volumeM3: number;
  readonly volumeU: number;
  readonly basis: "stated" | "measured_sides" | "estimate";
  readonly labelDigest: string | null;
}

const fields = {
  id: rooms.id,
  revision: roomRevisions.revision,
  volumeM3: roomRevisions.volumeM3,
  volumeU: roomRevisions.volumeU,
  basis: roomRevisions.basis,
  labelDigest: rooms.labelDigest,
};

/** A submitter's room by the MAC of its label, with its newest volume; null where there is none yet. */
export async function findRoomByLabel(
  connection: Connection,
  submitter: string,
  labelMac: Uint8Array,
): Promise<StoredRoom | null> {
  const [row] = await connection
    .select(fields)
    .from(rooms)
    .innerJoin(roomRevisions, eq(roomRevisions.room, rooms.id))
    .where(and(eq(rooms.submitter, submitter), eq(rooms.labelMac, labelMac)))
    .orderBy(desc(roomRevisions.revision))
    .limit(1);
  return row ?? null;
}

/** One revision of a room. */
export async function findRoomRevision(
  connection: Connection,
  room: string,
  revision: number,
): Promise<StoredRoom | null> {
  const [row] = await connection
    .select(fields)
    .from(rooms)
    .innerJoin(roomRevisions, eq(roomRevisions.room, rooms.id))
    .where(and(eq(rooms.id, room), eq(roomRevisions.revision, revision)));
  return row ?? null;
}
