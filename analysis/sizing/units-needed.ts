import { intervalOf, type PartRelative, probabilityAbove } from "../pooling/part-relative.ts";
import { welchSatterthwaite } from "../welch-satterthwaite.ts";

/**
 * Probability that n equal units deliver what is needed: P(n·y > N), y being what a cleaner of the kind does in another room
 * (the pooled prediction, m³/h) and N what the room needs. What the cleaner is off by there is the same for all n units, so
 * that more of them do not average it out. That units at one spot mix a room less well than in a test is not in it.
 */
export function probabilityOfReaching(units: number, prediction: PartRelative, needed: PartRelative): number {
  const absolute = Math.sqrt(Math.max(0, needed.u ** 2 - (needed.relativeU * needed.value) ** 2));
  const doubt = { relativeU: needed.relativeU, absoluteU: absolute / units, dof: needed.dof };
  return probabilityAbove(againstRoom(prediction, doubt), needed.value / units);
}

/** What a room is not known to: a share of the clean air itself (its volume), and m³/h beside it (its natural loss). */
export interface RoomDoubt {
  readonly relativeU: number;
  readonly absoluteU: number;
  readonly dof: number;
}

/** What a unit does, with the doubt about the room it is held against taken in: both independent (JCGM 100:2008 eq. 10). */
export function againstRoom(prediction: PartRelative, { relativeU, absoluteU, dof }: RoomDoubt): PartRelative {
  const ofRoom = { u: Math.hypot(prediction.value * relativeU, absoluteU), dof };
  return {
    value: prediction.value,
    ...welchSatterthwaite([prediction, ofRoom]),
    relativeU: Math.hypot(prediction.relativeU, relativeU),
  };
}

/** The fewest units that reach the need with a probability of at least `sureness` (0.5 or more), null over `most`. */
export function unitsNeeded(
  prediction: PartRelative,
  needed: PartRelative,
  sureness: number,
  most: number,
): number | null {
  if (!(sureness >= 0.5 && sureness < 1)) throw new RangeError(`a sureness is from 0.5 to under 1, not ${sureness}`);
  if (!(prediction.value > 0)) return null;
  // With fewer than N/y the probability is under a half.
  for (let n = Math.max(1, Math.ceil(needed.value / prediction.value)); n <= most; n++)
    if (probabilityOfReaching(n, prediction, needed) >= sureness) return n;
  return null;
}

/**
 * What a unit delivers with a probability of `sureness` [m³/h]: the lower end of a one-sided interval. Where the need N is
 * known for sure, ⌈N/this⌉ units are needed; a figure that can be stored with an entry and sorted by.
 */
export function sureCadr(prediction: PartRelative, sureness: number): number {
  return intervalOf(prediction, 1 - sureness).low;
}
