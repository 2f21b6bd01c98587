import type { Estimate } from "../estimate.ts";
import { welchSatterthwaite } from "../welch-satterthwaite.ts";
import type { Member } from "./member.ts";

/** What the trials in one room say of k_total − k_natural together. */
export interface RoomRate {
  readonly submitter: string;
  readonly room: string;
  readonly volumeM3: Estimate;
  readonly kDifferencePerH: Estimate;
  /** The part of its error that comes through each natural run, 1/h. */
  readonly naturalUPerH: ReadonlyMap<string, number>;
}

/** A trial's own part of u is at least a tenth of u: what two trials share never explains all of both. */
const LEAST_OWN_SHARE = 0.1;
/** How far u may be moved from the rate seen to the common one: beyond, the two have little to do with each other. */
const MOST_SCALING = 3;

/**
 * Generalised least squares mean of k_total − k_natural [1/h] over the trials of one room. Trials with the same natural run
 * share its error c: their covariance matrix is diag(d²) + c²·11ᵀ, and its inverse needs no matrix: within a group of one
 * run weights are 1/d², and the group's mean has the variance 1/Σ(1/d²) + c². Widened by the Birge ratio R = √(Q/(n−1))
 * where it is over 1 (Birge 1932, Phys. Rev. 40:207), dof then at most n − 1, else by Welch and Satterthwaite.
 *
 * The fit of a total decay is good to a share of k_total. So d is brought from the trial's own k_total to that of the
 * entry's common rate, `cadrM3PerH`/V: weights 1/u² of what was seen favour what was seen too low.
 */
export function poolRoom(members: readonly Member[], cadrM3PerH: number): RoomRate {
  const [{ submitter, room, volumeM3 }] = members as readonly [Member, ...Member[]];
  const common = cadrM3PerH / volumeM3.value;
  const groups = [...Map.groupBy(members, naturalRun)].map(([run, sharing]) => ({
    run,
    ...groupMean(sharing, common),
  }));
  const sum = groups.reduce((total, { variance }) => total + 1 / variance, 0);
  const shares = groups.map(({ variance }) => 1 / variance / sum);
  const value = groups.reduce((mean, group, i) => mean + shares[i]! * group.mean, 0);
  const scatter = groups.reduce((q, { mean, variance, within }) => q + within + (mean - value) ** 2 / variance, 0);
  const birge2 = members.length > 1 ? scatter / (members.length - 1) : 0;
  const parts = groups.flatMap(({ parts }, i) => parts.map(({ u, dof }) => ({ u: shares[i]! * u, dof })));
  const { dof } = welchSatterthwaite(parts);
  return {
    submitter,
    room,
    volumeM3,
    kDifferencePerH: {
      value,
      u: Math.sqrt(Math.max(1, birge2) / sum),
      dof: birge2 > 1 ? Math.min(dof, members.length - 1) : dof,
    },
    naturalUPerH: new Map(groups.map(({ run, sharedU }, i) => [run, shares[i]! * sharedU])),
  };
}

function naturalRun({ trial, room, natural }: Member): string {
  if (natural === null) return `unknown in ${trial}`;
  return natural.run ?? `assumed in ${room}`;
}

/** The trials of one natural run: their mean, its variance, Q within, and the parts of its u. */
function groupMean(members: readonly Member[], commonPerH: number) {
  const sharedU = Math.min(...members.map(({ natural, kDifferencePerH: { u } }) => Math.min(natural?.u ?? 0, u)));
  const own = members.map(({ kDifferencePerH: { value, u }, natural }) => {
    const here = Math.max(Math.sqrt(u * u - sharedU * sharedU), LEAST_OWN_SHARE * u);
    return here * (natural === null ? 1 : scaling(value + natural.perH, commonPerH + natural.perH));
  });
  const sum = own.reduce((total, u) => total + 1 / u ** 2, 0);
  const weights = own.map((u) => 1 / u ** 2 / sum);
  const mean = members.reduce((total, { kDifferencePerH }, i) => total + weights[i]! * kDifferencePerH.value, 0);
  const within = members.reduce((q, { kDifferencePerH }, i) => q + ((kDifferencePerH.value - mean) / own[i]!) ** 2, 0);
  const dofs = members.map(({ kDifferencePerH }) => kDifferencePerH.dof);
  const parts = own.map((u, i) => ({ u: weights[i]! * u, dof: dofs[i]! }));
  parts.push({ u: sharedU, dof: Math.min(...dofs) });
  return { mean, variance: 1 / sum + sharedU ** 2, within, sharedU, parts };
}

function scaling(seenPerH: number, commonPerH: number): number {
  if (!(seenPerH > 0 && commonPerH > 0)) return 1;
  return Math.min(MOST_SCALING, Math.max(1 / MOST_SCALING, commonPerH / seenPerH));
}
