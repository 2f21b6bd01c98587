import type { Estimate } from "../estimate.ts";
import type { PartRelative } from "../pooling/part-relative.ts";

/** What a reader wants of the air in a room. */
export type Target =
  /** The cleaners are to add so many air changes, n·CADR/V. */
  | { readonly kind: "air-changes"; readonly perHour: number }
  /** So much of an aerosol is to be gone after so many minutes, what settles and leaks by itself included. */
  | { readonly kind: "clearance"; readonly removed: number; readonly minutes: number }
  /** With a steady source the level is to fall to this share of what it is without cleaners. */
  | { readonly kind: "ratio"; readonly ratio: number };

export interface OwnRoom {
  readonly volumeM3: Estimate;
  readonly naturalPerH: Estimate;
}

/**
 * The clean air all units together must deliver for a target [m³/h]: N = V·a, with a the air changes to be added,
 *   air changes: a as asked · clearance: a = −ln(1−removed)·60/minutes − k_n (CDC Table B.1) · ratio C/C_off =
 *   k_n/(k_n + a): a = k_n(1/ratio − 1), so that a fifth of the level asks for 4·k_n.
 * u by first order (JCGM 100:2008 eq. 10), the volume's part relative. Not above 0 where natural loss does it alone.
 * @throws RangeError for a target nothing reaches, or none at all
 */
export function neededCadr(target: Target, { volumeM3, naturalPerH }: OwnRoom): PartRelative {
  if (!(volumeM3.value > 0 && naturalPerH.value >= 0))
    throw new RangeError("a room has a volume, and a loss of 0 or more");
  const { perHour, perNatural } = addedAirChanges(target, naturalPerH.value);
  const value = volumeM3.value * perHour;
  const relativeU = volumeM3.u / volumeM3.value;
  const u = Math.hypot(relativeU * value, volumeM3.value * perNatural * naturalPerH.u);
  return { value, u, dof: Math.min(volumeM3.dof, perNatural === 0 ? Infinity : naturalPerH.dof), relativeU };
}

/** a, and ∂a/∂k_n. */
function addedAirChanges(target: Target, naturalPerH: number): { perHour: number; perNatural: number } {
  switch (target.kind) {
    case "air-changes":
      if (!(target.perHour > 0)) throw new RangeError(`air changes are above 0 an hour, not ${target.perHour}`);
      return { perHour: target.perHour, perNatural: 0 };
    case "clearance": {
      const { removed, minutes } = target;
      if (!(removed > 0 && removed < 1)) throw new RangeError(`a fraction removed is between 0 and 1, not ${removed}`);
      if (!(minutes > 0)) throw new RangeError(`a time is above 0 minutes, not ${minutes}`);
      return { perHour: (-60 * Math.log1p(-removed)) / minutes - naturalPerH, perNatural: -1 };
    }
    case "ratio": {
      const { ratio } = target;
      if (!(ratio > 0 && ratio < 1)) throw new RangeError(`a level falls to a share between 0 and 1, not ${ratio}`);
      return { perHour: naturalPerH * (1 / ratio - 1), perNatural: 1 / ratio - 1 };
    }
  }
}
