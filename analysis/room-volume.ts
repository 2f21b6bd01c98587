import type { Estimate } from "./estimate.ts";

/** How the uncertainty of a room's volume came about: readers must see where it was assumed. */
export type VolumeBasis = "stated" | "measured_sides" | "estimate";

export interface RoomVolume {
  readonly volumeM3: Estimate;
  readonly basis: VolumeBasis;
}

interface Stated {
  readonly value: number;
  readonly u: number | null;
}

/** A volume without a stated u is taken as an estimate, good to 5 % (common practice, no source). */
const ESTIMATE_RELATIVE_U = 0.05;
/** Three sides taped by hand give the volume of a rectangular room to 2 %, so each to 2 %/√3 (common practice, no source). */
const SIDE_RELATIVE_U = 0.02 / Math.sqrt(3);
/** What stands in a room is guessed to a fifth of its volume (common practice, no source). */
const DISPLACED_RELATIVE_U = 0.2;

/** A given air volume [m³]; dof = ∞, since a stated u is taken as known. */
export function givenVolume(volume: Stated): RoomVolume {
  const u = volume.u ?? ESTIMATE_RELATIVE_U * volume.value;
  return { volumeM3: { value: volume.value, u, dof: Infinity }, basis: volume.u === null ? "estimate" : "stated" };
}

/**
 * V = L·W·H − V_displaced [m³] from sides in m, u² = Σ(V₀·uᵢ/xᵢ)² + u_d² with V₀ = L·W·H (JCGM 100:2008 eq. 10).
 * The value is not positive where more is displaced than there is: the caller refuses that.
 */
export function rectangularVolume(sides: readonly [Stated, Stated, Stated], displaced: Stated | null): RoomVolume {
  const whole = sides[0].value * sides[1].value * sides[2].value;
  const parts = sides.map(({ value, u }) => (whole * (u ?? SIDE_RELATIVE_U * value)) / value);
  if (displaced) parts.push(displaced.u ?? DISPLACED_RELATIVE_U * displaced.value);
  const basis = sides.every(({ u }) => u !== null) ? "stated" : "measured_sides";
  return { volumeM3: { value: whole - (displaced?.value ?? 0), u: Math.hypot(...parts), dof: Infinity }, basis };
}
