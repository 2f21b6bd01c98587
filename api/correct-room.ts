import type { Estimate } from "../analysis/estimate.ts";
import type { RoomVolume } from "../analysis/room-volume.ts";
import { insertRoomRevision } from "../db/insert-room-revision.ts";
import { readEntriesAt } from "../db/members.ts";
import { findMovedSetting } from "../db/moves.ts";
import { findRoom, listTrialsIn } from "../db/rooms.ts";
import { changeState } from "./change-state.ts";
import { doubtedVolume } from "./doubt/doubted-volume.ts";
import { doubtReason } from "./doubt/rules.ts";
import type { Dependencies } from "./environment.ts";
import { repool } from "./repool.ts";
import { retrying } from "./store-trial.ts";

/**
 * Gives a room another volume and pools every entry that its trials count in, in one step. Stored results keep the volume
 * they were made with; pools multiply by the newest. A trial that a stated rule doubts with this volume is held first.
 * @returns whether anything changed
 */
export async function correctRoom(
  deps: Dependencies,
  it: { room: string; actor: string; volume: RoomVolume; reason: string },
): Promise<boolean> {
  const { db, now } = deps;
  const { room, actor, reason } = it;
  const { volumeM3, basis } = it.volume;
  await holdDoubted(deps, room, volumeM3);
  return retrying(() =>
    db.write(async (connection) => {
      const known = await findRoom(connection, room);
      if (known.volumeM3 === volumeM3.value && known.volumeU === volumeM3.u && known.basis === basis) return false;
      const roomRevision = known.revision + 1;
      const trials = await listTrialsIn(connection, room);
      const settings = new Set<number>();
      for (const setting of new Set(trials.map((trial) => trial.setting))) {
        settings.add(await findMovedSetting(connection, setting));
      }
      const changes = (await readEntriesAt(connection, [...settings])).flatMap((state) => {
        if (!state.members.some((member) => member.room === room)) return [];
        const members = state.members.map((member) => {
          if (member.room !== room) return member;
          return { ...member, roomRevision, volumeM3: volumeM3.value, volumeU: volumeM3.u };
        });
        return [{ state, members }];
      });
      await insertRoomRevision(connection, {
        revision: {
          room,
          revision: roomRevision,
          volumeM3: volumeM3.value,
          volumeU: volumeM3.u,
          basis,
          at: now().toISOString(),
        },
        actor,
        reason,
        readStates: Math.max(...trials.map(({ seq }) => seq)),
        readSettings: [...settings],
        pools: await repool(connection, changes),
      });
      return true;
    }),
  );
}

/** Before the volume is another one, so that a figure that is doubted never counts. */
async function holdDoubted(deps: Dependencies, room: string, volume: Estimate): Promise<void> {
  const known = await findRoom(deps.db.read, room);
  if (known.volumeM3 === volume.value && known.volumeU === volume.u) return;
  for (const { id, state } of await listTrialsIn(deps.db.read, room)) {
    if (state !== "listed" && state !== "questioned") continue;
    const doubts = (await doubtedVolume(deps.db.read, id, volume)).map((code) => doubtReason({ code }));
    const reason = "a stated rule doubts it with the corrected volume of its room";
    if (doubts.length > 0) await changeState(deps, id, "pending", "rule", reason, doubts);
  }
}
