import type { RoomVolume } from "../analysis/room-volume.ts";
import type { Trial } from "../analysis/trial.ts";
import type { Connection } from "../db/database.ts";
import { findRoomRevision } from "../db/rooms.ts";
import { StoreError } from "../db/store-error.ts";
import { findResult, findTrial, listRuns, type StoredTrial } from "../db/trials.ts";
import { findRun } from "./find-linked-run.ts";
import { storedFlow } from "./stated-flow.ts";
import { toCounter } from "./trial-input.ts";
import { trialSeed } from "./trial-seed.ts";
import { AirConditions, CounterIn } from "./wire/trial.ts";

/** The conditions of a stored record that its analysis depended on. */
interface RecordedConditions {
  readonly counters: readonly Record<string, unknown>[];
  readonly room: Record<string, unknown>;
}

/** A stored trial as the analysis took it: the same input gives the same result again. */
export async function findTrialInput(
  connection: Connection,
  id: string,
): Promise<{ trial: StoredTrial; input: Trial; volume: RoomVolume; roomRevision: number }> {
  const trial = await findTrial(connection, id);
  const record = JSON.parse(trial.json) as RecordedConditions;
  const result = await findResult(connection, id, trial.revision);
  const room = await findRoomRevision(connection, trial.room, result.roomRevision);
  if (!room) throw new StoreError("not-found", `The room of trial ${id} is not stored.`);
  const runs = await listRuns(connection, id, trial.revision);
  const { ventilation, mixing_fan: mixingFan } = AirConditions.parse(record.room);
  const volumeM3 = { value: room.volumeM3, u: room.volumeU, dof: Infinity };
  const input = {
    room: { volumeM3, ventilation, mixingFan },
    counters: record.counters.map(({ position: _, ...counter }) => toCounter(CounterIn.parse(counter))),
    runs: await Promise.all(runs.map(({ n }) => findRun(connection, id, trial.revision, n))),
  };
  return {
    trial,
    roomRevision: result.roomRevision,
    volume: { volumeM3, basis: room.basis },
    input: {
      ...input,
      statedFlowM3PerH: await storedFlow(connection, trial.configuration, trial.setting),
      seed: await trialSeed(input),
    },
  };
}
