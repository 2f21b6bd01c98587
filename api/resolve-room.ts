import type { RoomVolume } from "../analysis/room-volume.ts";
import type { Connection } from "../db/database.ts";
import type { NewRoom } from "../db/insert-trial.ts";
import { findRoomByLabel } from "../db/rooms.ts";
import { StoreError } from "../db/store-error.ts";
import { makeWord, type NewWord } from "../db/words.ts";
import { foldText } from "./configuration-identity.ts";
import { invalid } from "./problem.ts";
import { makeId, type Random } from "./public-id.ts";
import type { Secret } from "./secret.ts";
import type { PreparedTrial } from "./trial-input.ts";
import type { RoomIn } from "./wire/trial.ts";

/** A trial's room, found by its label or still to be stored, with the volume its results are made with. */
export interface ResolvedRoom {
  readonly id: string;
  readonly revision: number;
  readonly volume: RoomVolume;
  readonly created: NewRoom | null;
  /** The room's label as it stands in a hashed record: one word for all trials of the room; nothing for an unnamed room. */
  readonly label: { readonly label?: { readonly word_sha256: string } };
  readonly words: readonly NewWord[];
}

interface Context {
  readonly connection: Connection;
  readonly submitter: string;
  readonly at: string;
  readonly random: Random;
  readonly secret: Secret;
  readonly invented: boolean;
}

const SAME_VOLUME = 1e-6; // the same volume in litres, feet or from its sides differs by rounding only

/**
 * Finds the submitter's room of this label, or makes it. A room without a label is a room of this trial alone.
 * @throws StoreError "room-volume-conflict" where the label is on record with another volume
 */
export async function resolveRoom(context: Context, room: RoomIn, prepared: PreparedTrial): Promise<ResolvedRoom> {
  const { connection, submitter, at, random, secret } = context;
  const { volumeM3, basis } = prepared.volume;
  const labelMac = room.label === undefined ? null : await secret.mac("room-label", submitter, foldText(room.label));
  const known = labelMac && (await findRoomByLabel(connection, submitter, labelMac));
  if (known) {
    const sameVolume = Math.abs(volumeM3.value - known.volumeM3) <= SAME_VOLUME * known.volumeM3;
    const sameU = basis !== "stated" || Math.abs(volumeM3.u - known.volumeU) <= SAME_VOLUME * known.volumeM3;
    if (!sameVolume || !sameU) {
      throw new StoreError(
        "room-volume-conflict",
        `The room ${JSON.stringify(room.label)} is on record with ${known.volumeM3} m³, u ${known.volumeU} m³, and was sent with ${volumeM3.value} m³, u ${volumeM3.u} m³. Use another label, or correct the room: POST /v1/rooms/${known.id}/revisions.`,
        { errors: [{ detail: "This label names a room of another volume.", pointer: "#/room/volume" }] },
      );
    }
    checkLinks(prepared, { ...context, room: known.id });
    return {
      id: known.id,
      revision: known.revision,
      volume: { volumeM3: { value: known.volumeM3, u: known.volumeU, dof: Infinity }, basis: known.basis },
      created: null,
      label: labelOf(known.labelDigest),
      words: [],
    };
  }
  const id = makeId("room", random);
  checkLinks(prepared, { ...context, room: id });
  const word = room.label === undefined ? null : await makeWord(room.label, random(16));
  return {
    id,
    revision: 1,
    volume: prepared.volume,
    created: {
      room: { id, submitter, labelMac, labelDigest: word?.digest ?? null, createdAt: at },
      revision: { room: id, revision: 1, volumeM3: volumeM3.value, volumeU: volumeM3.u, basis, at },
    },
    label: labelOf(word?.digest ?? null),
    words: word ? [word] : [],
  };
}

function labelOf(digest: string | null): ResolvedRoom["label"] {
  return digest === null ? {} : { label: { word_sha256: digest } };
}

/** A shared natural run comes from the same room of the same submitter, logged by the same counter in the same channels. */
function checkLinks({ runs, input }: PreparedTrial, own: { submitter: string; invented: boolean; room: string }): void {
  for (const { input: run, source } of runs) {
    if (!("link" in source)) continue;
    const { link } = source;
    const path = ["runs", run.index, "from_run"];
    if (link.submitter !== own.submitter)
      throw invalid(path, "A natural run can only be taken from a trial of your own.");
    if (link.room !== own.room) throw invalid(path, "The natural run was made in another room.");
    if (link.invented !== own.invented) throw invalid(path, "Invented and real trials share no runs.");
    const model = input.counters.find(({ id }) => id === run.counter)?.model ?? null;
    if (link.counterModel !== model) throw invalid(path, "The natural run was logged by another model of counter.");
    const held = new Set(run.series.channels.map(({ id }) => id));
    const fitted = input.runs.filter(({ counter, role }) => counter === run.counter && role === "total");
    const missing = fitted.flatMap(({ series }) => series.channels).find(({ id }) => !held.has(id));
    if (missing) throw invalid(path, `The natural run holds no channel ${JSON.stringify(missing.id)}.`);
  }
}
