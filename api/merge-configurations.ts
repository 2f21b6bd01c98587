import { findConfiguration, listSettings, type StoredConfiguration, type StoredSetting } from "../db/configurations.ts";
import type { Connection } from "../db/database.ts";
import { insertMerge, type Merge } from "../db/insert-merge.ts";
import { readEntriesAt } from "../db/members.ts";
import { StoreError } from "../db/store-error.ts";
import type { Dependencies } from "./environment.ts";
import { invalid } from "./problem.ts";
import { makeId } from "./public-id.ts";
import { type Change, repool } from "./repool.ts";
import { retrying } from "./store-trial.ts";

/**
 * Merges a configuration into another that is the same thing: its trials count in the other's entries from now on, setting
 * by setting of the same folded label, and both sides are pooled again in the same step.
 * @throws StoreError "not-found", "already-merged"; RequestError "invalid" at `into`
 */
export async function mergeConfigurations(
  { db, now, random }: Dependencies,
  it: { configuration: string; into: string; actor: string; reason: string },
): Promise<void> {
  const { configuration, into } = it;
  if (configuration === into) throw invalid(["into"], "A configuration cannot be merged into itself.");
  await retrying(() =>
    db.write(async (connection) => {
      const at = now().toISOString();
      refuseMerged(await findConfiguration(connection, configuration));
      refuseMerged(await findTarget(connection, into), "#/into");
      const moved = await listSettings(connection, configuration);
      const kept = await listSettings(connection, into);
      const newSettings = moved
        .filter(({ folded }) => !kept.some((setting) => setting.folded === folded))
        .map(({ label, folded, statedJson }) => ({ configuration: into, label, folded, statedJson, at }));
      const changes: Change[] = [];
      const newEntries: Merge["newEntries"][number][] = [];
      let entries = 0;
      for (const { id, folded } of moved) {
        const left = await readEntriesAt(connection, [id]);
        const target = kept.find((setting) => setting.folded === folded);
        const joined = target ? await readEntriesAt(connection, [target.id]) : [];
        entries += left.length;
        for (const state of left) {
          const { band, invented } = state.entry;
          const there = joined.find(({ entry }) => entry.band === band && entry.invented === invented);
          const created = { id: makeId("entry", random), folded, band, invented };
          if (!there) newEntries.push(created); // also where none counts yet: a trial that waits may be listed there
          if (state.members.length === 0) continue;
          changes.push(
            { state, members: [] },
            {
              state: there ?? { entry: created, previous: new Map(), seq: 0 },
              members: [...(there?.members ?? []), ...state.members],
            },
          );
        }
      }
      await insertMerge(connection, {
        ...it,
        at,
        moves: moved.map(({ id, folded }: StoredSetting) => ({ from: id, folded })),
        newSettings,
        newEntries,
        readEntries: entries,
        pools: await repool(connection, changes),
      });
    }),
  );
}

async function findTarget(connection: Connection, into: string): Promise<StoredConfiguration> {
  try {
    return await findConfiguration(connection, into);
  } catch (error) {
    if (error instanceof StoreError) throw invalid(["into"], error.message);
    throw error;
  }
}

/** @throws StoreError "already-merged" with the id that stands for it */
export function refuseMerged({ id, mergedInto }: StoredConfiguration, pointer?: string): void {
  if (mergedInto === null) return;
  const detail = `Configuration ${id} was merged into ${mergedInto}.`;
  throw new StoreError("already-merged", `${detail} Name that one.`, {
    merged_into: mergedInto,
    ...(pointer ? { errors: [{ detail, pointer }] } : {}),
  });
}
