import { ASSUMED_SPREAD, type Spread } from "../expected-elsewhere.ts";
import { laboratoriesOf } from "./laboratory.ts";
import type { Member } from "./member.ts";
import { plainMean } from "./pool-cadr.ts";
import { likelyVariance } from "./restricted-likelihood.ts";

/** The members of one entry on the basis of all trials. */
export interface EntryMembers {
  readonly invented: boolean;
  readonly members: readonly Member[];
}

export interface LearntSpread extends Spread {
  /** Entries it was learnt from; 0 where it is assumed. */
  readonly entries: number;
}

/** Fewer laboratories than this on an entry say little of how they differ. */
const LEAST_LABORATORIES = 3;
/** Fewer such entries, and the assumed spread is the better guess. */
const LEAST_ENTRIES = 3;
/** More would outweigh what an entry's own laboratories say. */
const MOST_DOF = 30;
/** An entry whose rate is not told from 0 by as many u has no relative scale. */
const LEAST_SIGNAL = 3;

/**
 * The spread between laboratories s, relative, one for the registry: restricted maximum likelihood over all entries with
 * three or more laboratories, each divided by its own plain mean, each with a mean of its own; invented ones left out. dof
 * by Satterthwaite, d₀ = 2s⁴·I with Fisher's information I of s², and at most the number of laboratories less one, for one
 * laboratory is off alike in all it measures. s² is at least its own standard error 1/√I: less cannot be told.
 */
export function learnSpread(entries: readonly EntryMembers[]): LearntSpread {
  const submitters = new Set<string>();
  const groups = entries.flatMap(({ invented, members }) => {
    if (invented || members.length < LEAST_LABORATORIES) return [];
    const laboratories = laboratoriesOf(members, plainMean(laboratoriesOf(members, 0)));
    const mean = plainMean(laboratories);
    const u = Math.hypot(...laboratories.map(({ cadrM3PerH }) => cadrM3PerH.u)) / laboratories.length;
    if (laboratories.length < LEAST_LABORATORIES || !(mean > LEAST_SIGNAL * u)) return [];
    for (const { submitter } of laboratories) submitters.add(submitter);
    return [laboratories.map(({ cadrM3PerH: one }) => ({ value: one.value / mean, variance: (one.u / mean) ** 2 }))];
  });
  const likely = groups.length >= LEAST_ENTRIES ? likelyVariance(groups, ASSUMED_SPREAD.relative ** 2) : null;
  if (likely === null) return { ...ASSUMED_SPREAD, entries: 0 };
  const { tau2, information } = likely;
  const s2 = Math.max(tau2, 1 / Math.sqrt(information));
  const dof = Math.min(MOST_DOF, submitters.size - 1, 2 * s2 ** 2 * information);
  return { relative: Math.sqrt(s2), dof: Math.max(1, dof), source: "learnt", entries: groups.length };
}
