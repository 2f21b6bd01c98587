import { backgroundNoiseCorrection } from "./background-noise-correction.ts";
import { type Estimate, interval95 } from "./estimate.ts";
import { hemisphereDb, levelAtDistanceDb, meanLevel } from "./sound-level.ts";

export type Meter = "class_1" | "class_2" | "phone" | "unknown" | "stated_by_maker";

/** One reading, or one figure of a maker: A-weighted levels in dB with their stated u, the distance in m. */
export interface NoiseReading {
  readonly quantity: "L_pA" | "L_WA";
  readonly levelDb: Stated;
  readonly backgroundDb: Stated | null;
  readonly distanceM: Stated | null;
  readonly meter: Meter;
}

interface Stated {
  readonly value: number;
  readonly u: number | null;
}

/** L_pA at 1 m: a level, an upper bound, or the reason why there is none. */
export type NoiseRating =
  | { readonly kind: "level"; readonly level: Estimate; readonly k1Db: number | null }
  | { readonly kind: "upper-bound"; readonly highDb: number; readonly k1Db: number | null }
  | { readonly kind: "not-rated"; readonly reason: NotRated };

export const NOT_RATED = ["near-background", "no-distance", "implausible"] as const;
export type NotRated = (typeof NOT_RATED)[number];

/** Standard uncertainty of a whole measurement by its meter, dB (common practice, no source). */
const METER_U_DB = { class_1: 1, class_2: 2, phone: 4, unknown: 4, stated_by_maker: 2 } as const;
/** Phones are worse where it is quiet (common practice, no source). */
const QUIET = { underDb: 45, uDb: 6 };
/** A background wanders while it is looked at (common practice, no source). */
const BACKGROUND_U_DB = 1;
/** Without a reading of the background up to 1.3 dB stay in doubt: u of an even spread over it. */
const NO_BACKGROUND_U_DB = 1.3 / Math.sqrt(3);
/** A source has no point from which its distance counts, m (common practice, no source). */
const ACOUSTIC_CENTRE_U_M = 0.05;
/** A room is no free field: 2 dB near 1 m, 3 dB where the level is brought there from further (the method's 2–3 dB). */
const ROOM_U_DB = { near: 2, far: 3 };
const NEAR_M = [0.5, 1.5] as const;

/**
 * L_pA at 1 m [dB] of one reading: background-corrected (K₁, ISO 3744), brought to 1 m by +20·lg(r/1 m), or for a sound
 * power level −10·lg(2π) (hemisphere). u² = meter² + (c_L·u_L)² + (c_B·u_B)² + distance² + room² with c from K₁; the
 * meter's error is common to both readings and passes as it is; dof = ∞, for all of these are taken as known. JCGM
 * 100:2008 eq. 10. A bound's high end is that of the 95 % interval about the corrected level.
 */
export function rateNoise(reading: NoiseReading): NoiseRating {
  const { quantity, levelDb, backgroundDb, distanceM, meter } = reading;
  const power = quantity === "L_WA";
  if (!power && distanceM === null) return { kind: "not-rated", reason: "no-distance" };
  if (!plausible(reading)) return { kind: "not-rated", reason: "implausible" };
  const correction = backgroundDb && backgroundNoiseCorrection(levelDb.value - backgroundDb.value);
  if (correction?.kind === "not-rated") return { kind: "not-rated", reason: "near-background" };

  const k1Db = correction?.k1Db ?? null;
  const cL = correction?.sensitivity ?? 1;
  const measured = meter !== "stated_by_maker";
  const doubt = measured ? NO_BACKGROUND_U_DB : 0; // a maker's figure is taken as corrected
  const background = backgroundDb ? (cL - 1) * (backgroundDb.u ?? BACKGROUND_U_DB) : doubt;
  const r = power ? null : distanceM!;
  const parts = [
    meterU(meter, levelDb),
    measured ? cL * (levelDb.u ?? 0) : 0,
    background,
    r ? (20 / Math.LN10) * (Math.hypot(r.u ?? 0, ACOUSTIC_CENTRE_U_M) / r.value) : 0,
    r && !(r.value >= NEAR_M[0] && r.value <= NEAR_M[1]) ? ROOM_U_DB.far : ROOM_U_DB.near,
  ];
  const to1mDb = r ? -levelAtDistanceDb(0, r.value) : -hemisphereDb(1);
  const level = { value: levelDb.value - (k1Db ?? 0) + to1mDb, u: Math.hypot(...parts), dof: Infinity };
  if (correction?.kind === "upper-bound") return { kind: "upper-bound", highDb: interval95(level).high, k1Db };
  return { kind: "level", level, k1Db };
}

/** One figure of several: the energy mean of the levels; where there are only bounds the lowest; null where nothing. */
export function meanNoise(ratings: readonly NoiseRating[]): Exclude<NoiseRating, { kind: "not-rated" }> | null {
  const levels = ratings.flatMap((rating) => (rating.kind === "level" ? [rating.level] : []));
  if (levels.length > 0) return { kind: "level", level: meanLevel(levels), k1Db: null };
  const bounds = ratings.flatMap((rating) => (rating.kind === "upper-bound" ? [rating.highDb] : []));
  return bounds.length > 0 ? { kind: "upper-bound", highDb: Math.min(...bounds), k1Db: null } : null;
}

/** A maker's own u counts where it is stated; a meter's class stands beside the stated scatter of its readings. */
function meterU(meter: Meter, level: Stated): number {
  if (meter === "stated_by_maker") return level.u ?? METER_U_DB.stated_by_maker;
  if (meter === "phone" || meter === "unknown") return level.value < QUIET.underDb ? QUIET.uDb : METER_U_DB[meter];
  return METER_U_DB[meter];
}

/** Levels between a silent chamber and the loudest sound air carries, distances of a room: else somebody mistyped. */
function plausible({ levelDb, backgroundDb, distanceM }: NoiseReading): boolean {
  const sound = [levelDb, ...(backgroundDb ? [backgroundDb] : [])];
  const heard = sound.every(({ value, u }) => value >= -20 && value <= 194 && (u ?? 0) <= 30);
  return (
    heard && (distanceM === null || (distanceM.value >= 0.05 && distanceM.value <= 100 && (distanceM.u ?? 0) <= 100))
  );
}
