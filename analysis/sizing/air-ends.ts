import { clearanceTimeMinutes } from "../clearance-time.ts";
import { type Interval, intervalOf, type PartRelative } from "../pooling/part-relative.ts";
import { REMOVED } from "./air-in-room.ts";
import { neededCadr, type OwnRoom } from "./target.ts";
import { againstRoom, probabilityOfReaching } from "./units-needed.ts";

/** Ends of a 95 % interval of minutes; there is no upper one where the air may never clear. */
export interface MinutesEnds {
  readonly low: number | null;
  readonly high: number | null;
}

/** The 95 % intervals of what units do in a room (`airInRoom`). */
export interface AirEnds {
  readonly airChangesPerH: Interval;
  readonly halfLifeMinutes: MinutesEnds;
  readonly clearance: readonly (MinutesEnds & { readonly removed: number })[];
  /** Null where there is no natural loss. */
  readonly steadyRatio: Interval | null;
}

const TAIL = 0.025;

/**
 * 95 % intervals of what n units do in a room of V [m³] and natural loss k_n [1/h], from the pooled prediction y of a unit in
 * another room and all that is not known of this one. Each figure is monotone in y, so that the ends of y give its own:
 *   air changes n·y/V: ends of y with u(V)/V as a further share · k = k_n + n·y/V: ends y± of y with u(V)/V and, beside it,
 *   V·u(k_n)/n, so k± = k_n + n·y±/V; minutes −60·ln(1−removed)/k∓ · level with a steady source k_n/k: the ratios that are
 *   reached (`probabilityOfReaching`) with a probability of 97.5 and of 2.5 %.
 * So an interval never says otherwise than the probability does: 99 % gone after t minutes is as sure as t is likely enough.
 */
export function airEnds(units: number, prediction: PartRelative, room: OwnRoom): AirEnds {
  const { volumeM3, naturalPerH } = room;
  const relativeU = volumeM3.u / volumeM3.value;
  const airChanges = (perUnit: number) => (units * perUnit) / volumeM3.value;
  const added = intervalOf(againstRoom(prediction, { relativeU, absoluteU: 0, dof: volumeM3.dof }));
  const absoluteU = (volumeM3.value * naturalPerH.u) / units;
  const dof = Math.min(volumeM3.dof, naturalPerH.dof);
  const all = intervalOf(againstRoom(prediction, { relativeU, absoluteU, dof }));
  const slow = naturalPerH.value + airChanges(all.low);
  const fast = naturalPerH.value + airChanges(all.high);
  const minutesTo = (perHour: number, removed: number) => (perHour > 0 ? clearanceTimeMinutes(perHour, removed) : null);
  const ends = (removed: number) => ({ low: minutesTo(fast, removed), high: minutesTo(slow, removed) });
  return {
    airChangesPerH: { low: airChanges(added.low), high: airChanges(added.high) },
    halfLifeMinutes: ends(0.5),
    clearance: REMOVED.map((removed) => ({ removed, ...ends(removed) })),
    steadyRatio:
      naturalPerH.value > 0
        ? { low: ratioReached(TAIL, units, prediction, room), high: ratioReached(1 - TAIL, units, prediction, room) }
        : null,
  };
}

const FURTHEST = Math.log(1e9);
const HALVINGS = 40; // of 41 natural logarithms: 4·10⁻¹¹ of the odds

/** The level that is reached with a given probability, by halving on the scale ln(1/ratio − 1); 0 or 1 where none or all are. */
function ratioReached(probability: number, units: number, prediction: PartRelative, room: OwnRoom): number {
  const ratioAt = (logOdds: number) => 1 / (1 + Math.exp(logOdds));
  const isReached = (logOdds: number) =>
    probabilityOfReaching(units, prediction, neededCadr({ kind: "ratio", ratio: ratioAt(logOdds) }, room)) >=
    probability;
  let [low, high] = [-FURTHEST, FURTHEST];
  if (!isReached(low)) return 1;
  if (isReached(high)) return 0;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (isReached(middle)) low = middle;
    else high = middle;
  }
  return ratioAt(low);
}
