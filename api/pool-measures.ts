import { consensus } from "../analysis/consensus.ts";
import type { Estimate } from "../analysis/estimate.ts";
import { meanNoise, type NoiseRating } from "../analysis/noise-rating.ts";
import type { Member } from "../db/members.ts";

/** Noise and power of an entry as its trials measured them: energies of sound averaged, never decibels; power in W. */
export function poolMeasures(members: readonly Member[]) {
  const ratings = members.flatMap((member) => ratingOf(member) ?? []);
  const powers = members.flatMap((member) => powerOf(member) ?? []);
  return {
    ...noiseColumns(meanNoise(ratings)),
    noiseTrials: ratings.length,
    ...(powers.length === 0 ? NO_POWER : powerColumns(consensus(powers).estimate)),
    powerTrials: powers.length,
  };
}

/** A rating as it stands in columns: a level with its u, or with bound `upper` the level it stays under. */
export function noiseColumns(rating: NoiseRating | null) {
  if (rating === null || rating.kind === "not-rated") return NO_NOISE;
  if (rating.kind === "upper-bound") return { ...NO_NOISE, noiseDb: rating.highDb, noiseBound: "upper" as const };
  const { value, u, dof } = rating.level;
  return { noiseDb: value, noiseU: u, noiseDof: finite(dof), noiseBound: null };
}

const NO_NOISE = { noiseDb: null, noiseU: null, noiseDof: null, noiseBound: null };
const NO_POWER = { powerW: null, powerU: null, powerDof: null };

function ratingOf({ noiseDb, noiseU, noiseDof }: Member): NoiseRating | null {
  if (noiseDb === null) return null;
  if (noiseU === null) return { kind: "upper-bound", highDb: noiseDb, k1Db: null };
  return { kind: "level", level: { value: noiseDb, u: noiseU, dof: noiseDof ?? Infinity }, k1Db: null };
}

/** A plug meter whose u is not stated reads to 5 %, and not under a tenth of a watt (common practice, no source). */
const POWER_RELATIVE_U = 0.05;
const POWER_LEAST_U_W = 0.1;

function powerOf({ powerW, powerU }: Member): Estimate | null {
  if (powerW === null) return null;
  return { value: powerW, u: Math.max(powerU ?? POWER_RELATIVE_U * powerW, POWER_LEAST_U_W), dof: Infinity };
}

function powerColumns({ value, u, dof }: Estimate) {
  return { powerW: value, powerU: u, powerDof: finite(dof) };
}

/** Infinite degrees of freedom are NULL in columns. */
export function finite(dof: number): number | null {
  return Number.isFinite(dof) ? dof : null;
}
