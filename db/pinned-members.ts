import { and, eq, inArray } from "drizzle-orm";
import { alias } from "drizzle-orm/sqlite-core";
import type { Connection } from "./database.ts";
import { figureFields, type Member, ownMeasures, ownRevision } from "./members.ts";
import { roomRevisions, rooms, submitters, words } from "./schema/identity.ts";
import { resultBands, trialMeasures, trialRevisions, trials } from "./schema/trials.ts";

const labels = alias(words, "labels");

/** What names a member of a pooled row. */
interface Named {
  readonly trial: string;
  readonly revision: number;
  readonly methodVersion: string;
  readonly roomRevision: number;
}

export type PinnedMember = Member & { readonly roomLabel: string | null; readonly handle: string | null };

/** The members of a pooled row with the figures they had then, in their order, and who they are of; erased words are null. */
export async function listPinnedMembers(
  connection: Connection,
  band: string,
  named: readonly Named[],
): Promise<PinnedMember[]> {
  const ids = named.map(({ trial }) => trial);
  const rows = await connection
    .select({
      ...figureFields,
      roomRevision: roomRevisions.revision,
      volumeM3: roomRevisions.volumeM3,
      volumeU: roomRevisions.volumeU,
      roomLabel: labels.text,
      handle: words.text,
    })
    .from(trials)
    .innerJoin(resultBands, and(eq(resultBands.trial, trials.id), eq(resultBands.band, band)))
    .innerJoin(trialRevisions, ownRevision)
    .leftJoin(trialMeasures, ownMeasures)
    .innerJoin(roomRevisions, eq(roomRevisions.room, trials.room))
    .innerJoin(rooms, eq(rooms.id, trials.room))
    .innerJoin(submitters, eq(submitters.id, trials.submitter))
    .leftJoin(labels, eq(labels.digest, rooms.labelDigest))
    .leftJoin(words, eq(words.digest, submitters.handleDigest))
    .where(inArray(trials.id, ids));
  const byName = new Map(rows.map((row) => [nameOf(row), row]));
  return named.map((one) => byName.get(nameOf(one))!); // a row is pooled from figures that stand
}

function nameOf({ trial, revision, methodVersion, roomRevision }: Named): string {
  return `${trial}/${revision}/${methodVersion}/${roomRevision}`;
}
