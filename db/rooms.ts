import { and, desc, eq } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { roomRevisions, rooms } from "./schema/identity.ts";
import { trialStates } from "./schema/standings.ts";
import { trials } from "./schema/trials.ts";
import { StoreError } from "./store-error.ts";

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

/** A room with its newest volume and its owner. @throws StoreError "not-found" */
export async function findRoom(connection: Connection, id: string): Promise<StoredRoom & { submitter: string }> {
  const [row] = await connection
    .select({ ...fields, submitter: rooms.submitter })
    .from(rooms)
    .innerJoin(roomRevisions, eq(roomRevisions.room, rooms.id))
    .where(eq(rooms.id, id))
    .orderBy(desc(roomRevisions.revision))
    .limit(1);
  if (!row) throw new StoreError("not-found", `No room ${id} is stored.`);
  return row;
}

/** What was known of a room's volume, oldest first. */
export async function listRoomRevisions(connection: Connection, room: string) {
  return connection.select().from(roomRevisions).where(eq(roomRevisions.room, room)).orderBy(roomRevisions.revision);
}

/** The trials made in a room, withdrawn ones included, oldest first. */
export async function listTrialsIn(connection: Connection, room: string) {
  return connection
    .select({
      id: trials.id,
      setting: trials.setting,
      invented: trials.invented,
      state: trialStates.state,
      seq: trialStates.seq,
    })
    .from(trials)
    .innerJoin(trialStates, eq(trialStates.trial, trials.id))
    .where(eq(trials.room, room))
    .orderBy(trials.createdAt, trials.id);
}
