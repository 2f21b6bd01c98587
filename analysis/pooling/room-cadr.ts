import type { Estimate } from "../estimate.ts";
import { welchSatterthwaite } from "../welch-satterthwaite.ts";
import { type Interval, intervalOf, type PartRelative } from "./part-relative.ts";
import type { RoomRate } from "./pool-room.ts";

/** V·k of one room [m³/h] with the two parts of its u apart, each with its dof. */
interface RoomCadrParts {
  readonly value: number;
  /** V·u_k. */
  readonly fromRates: Omit<Estimate, "value">;
  /** cadr·u_V/V. */
  readonly fromVolume: Omit<Estimate, "value">;
  /** u_V/V. */
  readonly relativeU: number;
}

/**
 * What the trials of one room say of the clean air delivery rate [m³/h] with its 95 % interval, before any spread between
 * laboratories: V·k, u² = (V·u_k)² + (cadr·u_V/V)², which is the figure that enters the pool.
 */
export function roomCadr(rate: RoomRate, cadrM3PerH: number): PartRelative & Interval {
  const { value, fromRates, fromVolume, relativeU } = roomCadrParts(rate, cadrM3PerH);
  const { dof } = welchSatterthwaite([fromRates, fromVolume]);
  const room = { value, u: Math.hypot(fromRates.u, fromVolume.u), dof, relativeU };
  return { ...room, ...intervalOf(room) };
}

/**
 * V·k and the parts of its u, V and k independent; the volume's error is counted at the entry's common rate `cadrM3PerH`, so
 * that a room read low does not weigh more.
 */
export function roomCadrParts({ volumeM3, kDifferencePerH }: RoomRate, cadrM3PerH: number): RoomCadrParts {
  const relativeU = volumeM3.u / volumeM3.value;
  return {
    value: volumeM3.value * kDifferencePerH.value,
    fromRates: { u: volumeM3.value * kDifferencePerH.u, dof: kDifferencePerH.dof },
    fromVolume: { u: Math.abs(cadrM3PerH) * relativeU, dof: volumeM3.dof },
    relativeU,
  };
}
