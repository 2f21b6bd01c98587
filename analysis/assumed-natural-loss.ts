import type { Band } from "./analysis.ts";
import type { Estimate } from "./estimate.ts";
import type { Channel, Room } from "./trial.ts";

/** Losses by deposition and leakage, 1/h, by the middle of the size range (common practice, no source). */
const BY_SIZE = [
  { underUm: 1, perH: 0.5 },
  { underUm: 4, perH: 1.0 },
  { underUm: Infinity, perH: 2.5 },
];
const MASS_PER_H = 0.6;
const BY_VENTILATION = { off: 0, unknown: 0.3, natural: 1.0, mechanical: 1.5 };
/** Walls are near in a tent: three times the loss, known to 100 %; 2–13 /h were seen. */
const SMALL_ROOM_M3 = 10;
/** A relative u that is itself known to a quarter: GUM G.4.2 gives ν = 8. */
const DOF = 8;

/**
 * Natural loss k_n [1/h] where none was measured: by size, plus ventilation, u 60 %; under 10 m³ three times as much with
 * u 100 %. Common practice of the trade, no source; always flagged.
 */
export function assumedNaturalLoss(band: Band, quantity: Channel["quantity"], room: Room): Estimate {
  const middleUm =
    band.toUm === null ? band.fromUm : band.fromUm === null ? band.toUm : Math.sqrt(band.fromUm * band.toUm);
  const still =
    quantity === "mass" || middleUm === null ? MASS_PER_H : BY_SIZE.find(({ underUm }) => middleUm < underUm)!.perH;
  const perH = still + BY_VENTILATION[room.ventilation];
  const small = room.volumeM3.value < SMALL_ROOM_M3;
  return small ? { value: 3 * perH, u: 3 * perH, dof: DOF } : { value: perH, u: 0.6 * perH, dof: DOF };
}
