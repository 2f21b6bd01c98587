import { interval95 } from "../analysis/estimate.ts";
import { poolCadr } from "../analysis/pooling.ts";
import { canonicalJson, sha256Hex } from "../db/content-hash.ts";
import type { Member } from "../db/entries.ts";
import type { NewPooled } from "../db/insert-trial.ts";

/** The pooled figure of an entry over its members, as a row that still lacks the seq of the event that made it. */
export async function poolEntry(entry: string, members: readonly Member[], methodVersion: string): Promise<NewPooled> {
  const sorted = [...members].sort((a, b) => (a.trial < b.trial ? -1 : 1));
  const figures = sorted.length === 0 ? NOTHING : pooledFigures(sorted);
  const distinct = (of: (member: Member) => string) => new Set(sorted.map(of)).size;
  return {
    entry,
    basis: "all",
    ...figures,
    trials: sorted.length,
    rooms: distinct(({ room }) => room),
    submitters: distinct(({ submitter }) => submitter),
    unpaired: sorted.filter(({ paired }) => !paired).length,
    interestJson: canonicalJson(countBy(sorted, ({ interest }) => interest)),
    aerosolsJson: canonicalJson(countBy(sorted, ({ aerosol }) => aerosol)),
    spread: 1,
    noiseTrials: 0,
    powerTrials: 0,
    membersHash: await sha256Hex(canonicalJson(sorted.map(({ trial, revision }) => ({ trial, revision })))),
    methodVersion,
  };
}

function countBy(members: readonly Member[], of: (member: Member) => string): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const member of members) counts[of(member)] = (counts[of(member)] ?? 0) + 1;
  return counts;
}

const NOTHING = { cadrM3PerH: null, u: null, dof: null, low: null, high: null };

function pooledFigures(members: readonly Member[]) {
  const cadr = poolCadr(
    members.map((member) => ({
      room: member.room,
      kDifferencePerH: {
        value: member.kDifferencePerH,
        u: member.kDifferenceU,
        dof: member.kDifferenceDof ?? Infinity,
      },
      volumeM3: { value: member.volumeM3, u: member.volumeU, dof: Infinity },
    })),
  );
  const dof = Number.isFinite(cadr.dof) ? cadr.dof : null;
  return { cadrM3PerH: cadr.value, u: cadr.u, dof, ...interval95(cadr) };
}
