import { z } from "@hono/zod-openapi";
import type { Database } from "../../db/database.ts";
import { findRoom, listRoomRevisions, listTrialsIn } from "../../db/rooms.ts";
import { answer } from "../answer.ts";
import { readBody } from "../body.ts";
import { requireOwner } from "../caller.ts";
import { correctRoom } from "../correct-room.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import type { Ctx } from "../environment.ts";
import { parseId } from "../public-id.ts";
import { readSubmission } from "../submission.ts";
import { roomVolume } from "../trial-input.ts";
import { RoomRevisionIn } from "../wire/trial.ts";

const RoomOut = z
  .object({
    id: z.string(),
    url: z.string(),
    submitter: z.string(),
    revision: z.int(),
    volume: z.object({ value: z.number(), unit: z.literal("m3"), u: z.number(), basis: z.string() }),
    revisions: z.array(
      z.object({
        revision: z.int(),
        value: z.number(),
        unit: z.literal("m3"),
        u: z.number(),
        basis: z.string(),
        at: z.string(),
      }),
    ),
    trials: z.array(z.object({ id: z.string(), url: z.string(), state: z.string(), invented: z.boolean() })),
  })
  .openapi("StoredRoom");
const Id = z.object({ id: z.string().openapi({ example: "rom-7K3M9QX2RV0" }) });
const One = { description: "The room", content: { "application/json": { schema: RoomOut } } };

/** Reading a room and correcting its volume. */
export function addRooms(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/rooms/{id}",
      summary: "A room: what its volume was taken to be, and the trials made in it",
      request: { params: Id },
      responses: { 200: One, ...problems(404) },
    },
    async (c) => answer(await viewRoom(c.var.deps.db, c.var.deps.publicUrl, roomId(c))),
  );

  endpoint(
    app,
    {
      method: "post",
      path: "/v1/rooms/{id}/revisions",
      summary: "Correct a room's volume: entries with trials made in it are pooled again",
      security: [{ key: [] }],
      request: { params: Id, body: { content: { "application/json": { schema: RoomRevisionIn } } } },
      responses: {
        200: { ...One, description: "That is its volume already" },
        201: One,
        ...problems(400, 401, 403, 404, 415, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const room = roomId(c);
      const actor = await requireOwner(c, (await findRoom(db.read, room)).submitter, "room");
      const { reason, ...sent } = readSubmission(await readBody(c.req.raw), RoomRevisionIn).trial;
      const changed = await correctRoom(c.var.deps, { room, actor, volume: roomVolume(sent), reason });
      return answer(await viewRoom(db, publicUrl, room), changed ? 201 : 200, { Location: `/v1/rooms/${room}` });
    },
  );
}

function roomId(c: Ctx): string {
  return parseId("room", c.req.param("id") ?? "");
}

async function viewRoom(db: Database, publicUrl: string, id: string) {
  const { submitter, revision, volumeM3, volumeU, basis } = await findRoom(db.read, id);
  const [revisions, trials] = await Promise.all([listRoomRevisions(db.read, id), listTrialsIn(db.read, id)]);
  return {
    id,
    url: `${publicUrl}/v1/rooms/${id}`,
    submitter,
    revision,
    volume: { value: volumeM3, unit: "m3", u: volumeU, basis },
    revisions: revisions.map((one) => {
      return { revision: one.revision, value: one.volumeM3, unit: "m3", u: one.volumeU, basis: one.basis, at: one.at };
    }),
    trials: trials.map((trial) => {
      const url = `${publicUrl}/v1/trials/${trial.id}`;
      return { id: trial.id, url, state: trial.state, invented: trial.invented };
    }),
  };
}
