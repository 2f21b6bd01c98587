import { welchSatterthwaite } from "../welch-satterthwaite.ts";
import { type Interval, intervalOf, type PartRelative } from "./part-relative.ts";
import type { RoomRate } from "./pool-room.ts";

/**
 * What the trials of one room say of the clean air delivery rate [m³/h] with its 95 % interval, before any spread between
 * laboratories: V·k, u² = (V·u_k)² + (cadr·u_V/V)², the volume's error counted at the entry's common rate `cadrM3PerH` as
 * where rooms are pooled, so that this is the figure that enters the pool.
 */
export function roomCadr({ volumeM3, kDifferencePerH }: RoomRate, cadrM3PerH: number): PartRelative & Interval {
  const relativeU = volumeM3.u / volumeM3.value;
  const fromRates = { u: volumeM3.value * kDifferencePerH.u, dof: kDifferencePerH.dof };
  const fromVolume = { u: Math.abs(cadrM3PerH) * relativeU, dof: volumeM3.dof };
  const room = {
    value: volumeM3.value * kDifferencePerH.value,
    u: Math.hypot(fromRates.u, fromVolume.u),
    dof: welchSatterthwaite([fromRates, fromVolume]).dof,
    relativeU,
  };
  return { ...room, ...intervalOf(room) };
}
