import type { Estimate } from "../estimate.ts";
import { levelAtDistanceDb, sumOfLevelsDb } from "../sound-level.ts";

/**
 * Level [dB] where somebody sits, of equal units at given distances [m]: 10·lg Σ 10^((L₁ − 20·lg r)/10) from the level L₁ at
 * 1 m. They are one kind, read by the same meters: their u is one error, and stays u. Free field; indoors the level far away
 * is underrated. @throws RangeError without units or at no distance
 */
export function levelAtSeat(levelAt1mDb: Estimate, distancesM: readonly number[]): Estimate {
  if (distancesM.length === 0 || !distancesM.every((r) => r > 0 && r < Infinity))
    throw new RangeError("a seat is at some distance of every unit");
  const value = sumOfLevelsDb(distancesM.map((r) => levelAtDistanceDb(levelAt1mDb.value, r)));
  return { ...levelAt1mDb, value };
}
