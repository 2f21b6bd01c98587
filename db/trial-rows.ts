import { and, desc, eq, inArray, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/sqlite-core";
import { countedFigures } from "./counted-result.ts";
import type { Connection } from "./database.ts";
import { settingIdsMovedTo } from "./moves.ts";
import { rooms, submitters, words } from "./schema/identity.ts";
import { trialStates } from "./schema/standings.ts";
import { resultBands, trialRevisions, trials } from "./schema/trials.ts";
import { newestRevision } from "./trials.ts";

const labels = alias(words, "labels");

export type TrialRow = Awaited<ReturnType<typeof listTrialRows>>[number];

/**
 * The trials of a setting and of those merged into it, newest first, withdrawn ones included, each with who made it where,
 * and its newest figures in one band, null where it has none. Erased words are null.
 */
export async function listTrialRows(
  connection: Connection,
  { settingId, band, invented }: { settingId: number; band: string; invented: boolean },
) {
  return connection
    .select({
      id: trials.id,
      state: trialStates.state,
      room: trials.room,
      roomLabel: labels.text,
      submitter: trials.submitter,
      handle: words.text,
      interest: trialRevisions.interest,
      aerosol: trialRevisions.aerosol,
      aerosolStated: sql<number>`json_extract(${trialRevisions.json}, '$.aerosol.kind') IS NOT NULL`,
      invented: trials.invented,
      createdAt: trials.createdAt,
      performedAt: sql<string>`json_extract(${trialRevisions.json}, '$.performed_at')`,
      cadrM3PerH: resultBands.cadrM3PerH,
      cadrU: resultBands.cadrU,
      cadrDof: resultBands.cadrDof,
      paired: resultBands.paired,
      serious: resultBands.serious,
    })
    .from(trials)
    .innerJoin(trialRevisions, newestRevision)
    .innerJoin(trialStates, eq(trialStates.trial, trials.id))
    .innerJoin(rooms, eq(rooms.id, trials.room))
    .innerJoin(submitters, eq(submitters.id, trials.submitter))
    .leftJoin(labels, eq(labels.digest, rooms.labelDigest))
    .leftJoin(words, eq(words.digest, submitters.handleDigest))
    .leftJoin(resultBands, and(countedFigures, eq(resultBands.band, band as "mass")))
    .where(and(inArray(trials.setting, settingIdsMovedTo(settingId)), eq(trials.invented, invented)))
    .orderBy(desc(trials.createdAt), trials.id);
}
