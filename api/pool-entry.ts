import type { Member as PoolMember } from "../analysis/pooling/member.ts";
import { poolCadr } from "../analysis/pooling/pool-cadr.ts";
import { canonicalJson, sha256Hex } from "../db/content-hash.ts";
import type { Basis, Pooled } from "../db/entries.ts";
import type { NewPooled } from "../db/insert-pooled.ts";
import type { Member } from "../db/members.ts";
import type { StoredSpread } from "../db/spreads.ts";
import { finite, poolMeasures } from "./pool-measures.ts";

/** Whom a basis takes in. Other filters choose entries and never pool again. */
export const TAKES: Record<Basis, (member: Member) => boolean> = {
  all: () => true,
  independent: ({ interest }) => interest === "independent",
  paired: ({ paired }) => paired,
  independent_paired: ({ interest, paired }) => interest === "independent" && paired,
};
const BASES = Object.keys(TAKES) as Basis[];

/** What a basis stood at before: enough to tell whether it changes. */
export type Stood = Pick<Pooled, "membersHash" | "methodVersion" | "spread" | "trials">;

/**
 * The figures of an entry on each basis, as rows that still lack the seq of the event that made them. Basis `all` always
 * has a new row, for its seq tells that the entry was touched; the others only where their members, what is known of them
 * the spread or the adopted method changed.
 */
export async function poolEntry(
  entry: string,
  members: readonly Member[],
  previous: ReadonlyMap<Basis, Stood>,
  spread: StoredSpread,
  methodVersion: string,
): Promise<NewPooled[]> {
  const sorted = [...members].sort((a, b) => (a.trial < b.trial ? -1 : 1));
  const figures = new Map<string, ReturnType<typeof figuresOf>>(); // bases with the same members have the same figures
  const rows = await Promise.all(
    BASES.map(async (basis): Promise<NewPooled[]> => {
      const taken = sorted.filter(TAKES[basis]);
      const before = previous.get(basis);
      const membersHash = await hashOf(taken);
      const stays =
        taken.length === 0
          ? (before?.trials ?? 0) === 0
          : before?.membersHash === membersHash &&
            before.spread === spread.id &&
            before.methodVersion === methodVersion;
      if (stays && basis !== "all") return [];
      const pooled = figures.get(membersHash) ?? figuresOf(taken, spread);
      figures.set(membersHash, pooled);
      return [{ entry, basis, ...pooled, membersHash, spread: spread.id, methodVersion }];
    }),
  );
  return rows.flat();
}

function figuresOf(members: readonly Member[], spread: StoredSpread) {
  const distinct = (of: (member: Member) => string) => new Set(members.map(of)).size;
  return {
    ...(members.length === 0 ? NOTHING : cadrOf(members, spread)),
    ...poolMeasures(members),
    trials: members.length,
    rooms: distinct(({ room }) => room),
    submitters: distinct(({ submitter }) => submitter),
    unpaired: members.filter(({ paired }) => !paired).length,
    serious: members.filter(({ serious }) => serious).length,
    interestJson: canonicalJson(countBy(members, ({ interest }) => interest)),
    aerosolsJson: canonicalJson(countBy(members, ({ aerosol }) => aerosol)),
  };
}

const NOTHING = { cadrM3PerH: null, u: null, dof: null, low: null, high: null };

function cadrOf(members: readonly Member[], spread: StoredSpread) {
  const pooled = poolCadr(members.map(toPoolMember), spread);
  const { prediction } = pooled;
  return {
    cadrM3PerH: pooled.value,
    u: pooled.u,
    dof: finite(pooled.dof),
    relativeU: pooled.relativeU,
    low: pooled.low,
    high: pooled.high,
    predictionLow: prediction.low,
    predictionHigh: prediction.high,
    predictionU: prediction.u,
    predictionDof: finite(prediction.dof),
    predictionRelativeU: prediction.relativeU,
    tau: pooled.tau,
    i2: pooled.i2,
    q: pooled.q,
    leftOutChangeM3PerH: pooled.leftOutChangeM3PerH,
  };
}

/** A stored member as the pooling takes it. */
export function toPoolMember(member: Member): PoolMember {
  const { kNaturalPerH, kNaturalU } = member;
  return {
    trial: member.trial,
    submitter: member.submitter,
    room: member.room,
    volumeM3: { value: member.volumeM3, u: member.volumeU, dof: Infinity },
    kDifferencePerH: { value: member.kDifferencePerH, u: member.kDifferenceU, dof: member.kDifferenceDof ?? Infinity },
    natural:
      kNaturalPerH === null || kNaturalU === null
        ? null
        : { perH: kNaturalPerH, u: kNaturalU, run: member.naturalSource },
  };
}

/** All that decides a figure besides the spread: a corrected room or another result gives another hash. */
async function hashOf(members: readonly Member[]): Promise<string> {
  const names = members.map(({ trial, revision, methodVersion, roomRevision }) => {
    return `${trial}/${revision}/${methodVersion}/${roomRevision}`;
  });
  return sha256Hex(canonicalJson(names));
}

/** How many members there are of each sort. */
export function countBy(members: readonly Member[], of: (member: Member) => string): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const member of members) counts[of(member)] = (counts[of(member)] ?? 0) + 1;
  return counts;
}
