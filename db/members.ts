import { and, eq, inArray, sql } from "drizzle-orm";
import { countedFigures } from "./counted-result.ts";
import type { Connection } from "./database.ts";
import type { Basis, Entry, Pooled } from "./entries.ts";
import { settingsMovedTo } from "./moves.ts";
import { roomRevisions } from "./schema/identity.ts";
import { entries, methodAdoptions, pooled, trialStates } from "./schema/standings.ts";
import { resultBands, trialMeasures, trialRevisions, trials } from "./schema/trials.ts";
import { StoreError } from "./store-error.ts";

/** What a trial brings to an entry, whatever its room's volume is taken to be. */
export const figureFields = {
  trial: trials.id,
  revision: resultBands.revision,
  methodVersion: resultBands.methodVersion,
  band: resultBands.band,
  submitter: trials.submitter,
  interest: trialRevisions.interest,
  aerosol: trialRevisions.aerosol,
  room: trials.room,
  kDifferencePerH: resultBands.kDifferencePerH,
  kDifferenceU: resultBands.kDifferenceU,
  kDifferenceDof: resultBands.kDifferenceDof,
  paired: resultBands.paired,
  kNaturalPerH: resultBands.kNaturalPerH,
  kNaturalU: resultBands.kNaturalU,
  naturalSource: resultBands.naturalSource,
  serious: resultBands.serious,
  noiseDb: trialMeasures.noiseDb,
  noiseU: trialMeasures.noiseU,
  noiseDof: trialMeasures.noiseDof,
  noiseBound: trialMeasures.noiseBound,
  powerW: trialMeasures.powerW,
  powerU: trialMeasures.powerU,
};

/** A room's volume as one of its revisions has it. */
export interface MemberRoom {
  readonly roomRevision: number;
  readonly volumeM3: number;
  readonly volumeU: number;
}

type Measures = Omit<typeof trialMeasures.$inferSelect, "trial" | "revision" | "rowSha256">;
type BandFigures = Omit<typeof resultBands.$inferSelect, "rowSha256" | "trial" | "cadrM3PerH" | "cadrU" | "cadrDof">;
type Origin = Pick<typeof trials.$inferSelect, "submitter" | "interest" | "aerosol" | "room">;

/** One trial's figures in one band. */
export type MemberFigures = { readonly trial: string } & Origin & BandFigures & Measures;
/** One trial's figures as a member of an entry. */
export type Member = MemberFigures & MemberRoom;

const memberFields = {
  ...figureFields,
  roomRevision: roomRevisions.revision,
  volumeM3: roomRevisions.volumeM3,
  volumeU: roomRevisions.volumeU,
};

/** Joins a trial with the newest volume of its room. */
export const newestVolume = and(
  eq(roomRevisions.room, trials.room),
  sql`${roomRevisions.revision} = (SELECT max(v.revision) FROM ${roomRevisions} v WHERE v.room = ${trials.room})`,
)!;

/** Joins figures with the revision they are of. */
export const ownRevision = and(
  eq(trialRevisions.trial, resultBands.trial),
  eq(trialRevisions.revision, resultBands.revision),
)!;

export const ownMeasures = and(
  eq(trialMeasures.trial, resultBands.trial),
  eq(trialMeasures.revision, resultBands.revision),
)!;

/** An entry with all that its next pooled figures are made from, as it stood at one moment. */
export interface EntryState {
  readonly entry: Entry;
  /** The newest row of each basis that has one. */
  readonly previous: ReadonlyMap<Basis, Pooled>;
  /** The newest seq of basis `all`: what a writer compares before it adds the next; 0 before the first. */
  readonly seq: number;
  /** The place of the method version that was adopted when its members were read. */
  readonly adopted: number;
  readonly members: readonly Member[];
}

/** The entries of a setting, with the trials that count in each: listed or questioned, of it and of settings merged into it. */
export async function readEntries(connection: Connection, setting: number, invented: boolean): Promise<EntryState[]> {
  return (await readEntriesAt(connection, [setting])).filter(({ entry }) => entry.invented === invented);
}

/** Named one by one, so that the newest row of each is found by the primary key, however long its history. */
const ALL_BASES = sql`(SELECT 'all' AS basis UNION ALL SELECT 'independent' UNION ALL SELECT 'paired' UNION ALL SELECT 'independent_paired') AS bases`;

/** The entries of several settings, of real and of invented trials. */
export async function readEntriesAt(connection: Connection, settings: readonly number[]): Promise<EntryState[]> {
  if (settings.length === 0) return [];
  const here = inArray(entries.setting, [...settings]);
  const [found, rows, members, [adoption]] = await connection.batch([
    connection.select().from(entries).where(here).orderBy(entries.id),
    connection
      .select({ pooled })
      .from(entries)
      .innerJoin(ALL_BASES, sql`true`)
      .innerJoin(
        pooled,
        and(
          eq(pooled.entry, entries.id),
          sql`${pooled.basis} = bases.basis`,
          sql`${pooled.seq} = (SELECT max(p.seq) FROM pooled p WHERE p.entry = ${entries.id} AND p.basis = bases.basis)`,
        ),
      )
      .where(here),
    connection
      .select({ ...memberFields, setting: sql<number>`moved.into_setting`, invented: trials.invented })
      .from(trials)
      .innerJoin(sql`${settingsMovedTo(settings)} AS moved`, sql`moved.id = ${trials.setting}`)
      .innerJoin(
        trialStates,
        and(eq(trialStates.trial, trials.id), inArray(trialStates.state, ["listed", "questioned"])),
      )
      .innerJoin(resultBands, countedFigures)
      .innerJoin(trialRevisions, ownRevision)
      .leftJoin(trialMeasures, ownMeasures)
      .innerJoin(roomRevisions, newestVolume),
    connection.select({ adopted: sql<number>`max(${methodAdoptions.ordinal})` }).from(methodAdoptions),
  ]);
  const rowsOf = Map.groupBy(rows, (row) => row.pooled.entry);
  const membersOf = Map.groupBy(members, placeOf);
  return found.map((entry) => {
    const previous = new Map((rowsOf.get(entry.id) ?? []).map((row) => [row.pooled.basis, row.pooled]));
    const seq = previous.get("all")?.seq ?? 0;
    return { entry, previous, seq, adopted: adoption!.adopted, members: membersOf.get(placeOf(entry)) ?? [] };
  });
}

/** What a trial brings to its entries, one row a band, whether it counts or not. */
export async function listMembersOf(connection: Connection, trial: string): Promise<Member[]> {
  return connection
    .select(memberFields)
    .from(trials)
    .innerJoin(resultBands, countedFigures)
    .innerJoin(trialRevisions, ownRevision)
    .leftJoin(trialMeasures, ownMeasures)
    .innerJoin(roomRevisions, newestVolume)
    .where(eq(trials.id, trial));
}

export type MemberOrigin = Awaited<ReturnType<typeof findMemberOrigin>>;

/** What a member brings whatever its figures are: who tested, where, what else was measured. */
export async function findMemberOrigin(connection: Connection, trial: string, revision: number) {
  const { submitter, interest, aerosol, room, noiseDb, noiseU, noiseDof, noiseBound, powerW, powerU } = memberFields;
  const { roomRevision, volumeM3, volumeU } = memberFields;
  const measures = { noiseDb, noiseU, noiseDof, noiseBound, powerW, powerU };
  const [row] = await connection
    .select({ submitter, interest, aerosol, room, ...measures, roomRevision, volumeM3, volumeU })
    .from(trials)
    .innerJoin(trialRevisions, and(eq(trialRevisions.trial, trials.id), eq(trialRevisions.revision, revision)))
    .leftJoin(trialMeasures, and(eq(trialMeasures.trial, trials.id), eq(trialMeasures.revision, revision)))
    .innerJoin(roomRevisions, newestVolume)
    .where(eq(trials.id, trial));
  if (!row) throw new StoreError("not-found", `No trial ${trial} is stored.`);
  return row;
}

function placeOf({ setting, band, invented }: Pick<Entry, "setting" | "band" | "invented">): string {
  return `${setting} ${band} ${invented}`;
}
