import { clearanceTimeMinutes } from "../clearance-time.ts";

/** What a clean air delivery rate does in a room; times are null where the air never clears. */
export interface AirInRoom {
  /** Added by the cleaners, CADR/V. */
  readonly airChangesPerH: number;
  readonly halfLifeMinutes: number | null;
  /** Minutes until 90, 99 and 99.9 % of an aerosol are gone. */
  readonly clearance: readonly { readonly removed: number; readonly minutes: number | null }[];
  /** With a steady source, the level as a share of what it is without the cleaners; null where there is no natural loss. */
  readonly steadyRatio: number | null;
}

export const REMOVED = [0.9, 0.99, 0.999];

/**
 * In a room of V [m³] with natural loss k_n [1/h] all loss is k = k_n + CADR/V: half-life ln 2/k, time to a share removed
 * −ln(1−removed)/k (CDC Table B.1), steady ratio k_n/k. Every figure is monotone in CADR: the ends of its interval give
 * theirs. The room is taken as well mixed.
 */
export function airInRoom(cadrM3PerH: number, volumeM3: number, naturalPerH: number): AirInRoom {
  if (!(volumeM3 > 0 && naturalPerH >= 0)) throw new RangeError("a room has a volume, and a loss of 0 or more");
  const airChangesPerH = cadrM3PerH / volumeM3;
  const all = naturalPerH + airChangesPerH;
  const minutesTo = (removed: number) => (all > 0 ? clearanceTimeMinutes(all, removed) : null);
  return {
    airChangesPerH,
    halfLifeMinutes: minutesTo(0.5),
    clearance: REMOVED.map((removed) => ({ removed, minutes: minutesTo(removed) })),
    steadyRatio: naturalPerH > 0 && all > 0 ? naturalPerH / all : null,
  };
}
