import type { Member } from "../../../analysis/pooling/member.ts";

/** Members with their defaults: a room of 30 m³ known to 0.6, u 0.1 /h, every trial by another submitter in a room of its own. */
export function membersOf(...stated: (Partial<Member> & { k: number; u?: number; dof?: number })[]): Member[] {
  return stated.map(({ k, u = 0.1, dof = Infinity, ...rest }, i) => ({
    trial: `t${i}`,
    submitter: rest.room ? `of ${rest.room}` : `s${i}`,
    room: `r${i}`,
    volumeM3: { value: 30, u: 0.6, dof: Infinity },
    kDifferencePerH: { value: k, u, dof },
    natural: null,
    ...rest,
  }));
}

/** Laboratories that do not differ, known for sure: what is left is the algebra of shared errors. */
export const NO_SPREAD = { relative: 0, dof: 1e12, source: "learnt" } as const;
