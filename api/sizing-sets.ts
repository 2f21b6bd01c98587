import { intervalAt, type PartRelative, wholeDof } from "../analysis/pooling/part-relative.ts";
import { probabilityOfReaching, unitsNeeded } from "../analysis/sizing/units-needed.ts";
import { levelAtDistanceDb, levelOfUnitsDb } from "../analysis/sound-level.ts";
import { tQuantile } from "../analysis/student-t.ts";
import { firstOf } from "./first-of.ts";
import type { Board } from "./leaderboard-board.ts";
import type { SizingQuery } from "./wire/sizing.ts";

/** So many equal units of an entry. */
export interface SetOfUnits {
  readonly row: number;
  readonly units: number;
  readonly probability: number;
}

type Asked = Pick<
  SizingQuery,
  "probability" | "max_units" | "noise_max" | "budget" | "power_max" | "sort" | "limit"
> & {
  readonly distanceM: number;
};
type Excluded = Record<string, number>;

interface SetsFound {
  readonly sets: SetOfUnits[];
  /** The most units that keep to the limits, where these are likelier than not to reach it, though less surely than asked. */
  readonly nearMisses: SetOfUnits[];
  readonly excluded: Excluded;
}

/** Of so many times the sets wanted the exact probability is worked out. */
const LOOKED_AT = 3;
const MOST_NEAR_MISSES = 5;
const LIKELIER_THAN_NOT = 0.5;

/**
 * The best sets among the rows, each of the fewest units that reach what is needed. In one pass the units come from what a
 * unit surely delivers, which costs little; for the best of them they are then worked out with the doubt about the need too.
 */
export function findSets(board: Board, rows: Uint32Array, needed: PartRelative, asked: Asked): SetsFound {
  const excluded: Excluded = {};
  const fewerMayDo: number[] = [];
  const exclude = (row: number, reason: string) => {
    excluded[reason] = (excluded[reason] ?? 0) + 1;
    if (reason === "too_weak" || reason.startsWith(ENOUGH)) fewerMayDo.push(row);
  };
  const key = keyOf(board, asked);
  const sureM3PerH = sureCadr(board, asked.probability);
  const keyWhereItDoes = (row: number) => {
    const sure = sureM3PerH[row]!;
    const units = Math.max(1, Math.ceil(needed.value / sure));
    const reason = sure > 0 && units <= asked.max_units ? turnedDown(board, row, units, asked) : "too_weak";
    if (reason === null) return key(row, units);
    exclude(row, reason);
    return Number.NaN;
  };
  const sets: SetOfUnits[] = [];
  for (const row of firstOf(rows, asked.limit * LOOKED_AT, keyWhereItDoes, board.ids)) {
    const prediction = board.predictionAt(row);
    const units = unitsNeeded(prediction, needed, asked.probability, asked.max_units);
    const reason = units === null ? "too_weak" : turnedDown(board, row, units, asked);
    if (units === null || reason !== null) exclude(row, reason ?? "too_weak");
    else sets.push({ row, units, probability: probabilityOfReaching(units, prediction, needed) });
  }
  const order = (one: SetOfUnits) => (asked.sort === "probability" ? -one.probability : key(one.row, one.units));
  const first = (a: SetOfUnits, b: SetOfUnits) =>
    order(a) - order(b) || (board.ids[a.row]! < board.ids[b.row]! ? -1 : 1);

  const keyOfMost = (row: number) => {
    const most = mostLikelyUnits(board, row, needed, asked);
    return most === null ? Number.NaN : key(row, most);
  };
  const nearMisses = firstOf(Uint32Array.from(fewerMayDo), MOST_NEAR_MISSES * LOOKED_AT, keyOfMost, board.ids)
    .map((row): SetOfUnits => {
      const units = mostLikelyUnits(board, row, needed, asked)!;
      return { row, units, probability: probabilityOfReaching(units, board.predictionAt(row), needed) };
    })
    .filter(({ probability }) => probability >= LIKELIER_THAN_NOT);
  return {
    sets: sets.sort(first).slice(0, asked.limit),
    nearMisses: nearMisses.sort(first).slice(0, MOST_NEAR_MISSES),
    excluded,
  };
}

/** The most units that keep to every limit, null where these deliver less than is needed. */
function mostLikelyUnits(board: Board, row: number, needed: PartRelative, asked: Asked): number | null {
  let most: number | null = null;
  const least = Math.max(1, Math.ceil(needed.value / board.figures.cadrM3PerH[row]!));
  for (let n = least; n <= asked.max_units && overLimit(board, row, n, asked) === null; n++) most = n;
  return most;
}

/** Begins a reason that a single unit does not give: one keeps to the limit, as many as are needed do not. */
const ENOUGH = "enough_";

/** Why a set does not do; null where it does. */
function turnedDown(board: Board, row: number, units: number, asked: Asked): string | null {
  const ofOne = overLimit(board, row, 1, asked);
  const ofAll = ofOne === null ? overLimit(board, row, units, asked) : null;
  return ofAll === null ? ofOne : `${ENOUGH}${ofAll}`;
}

/** Which limit so many units pass; null where none. What is not known of them cannot be shown to stay under one. */
function overLimit({ figures, currency, currencies }: Board, row: number, units: number, asked: Asked): string | null {
  if (asked.noise_max !== undefined) {
    const level = figures.noiseDb[row]!;
    const at1m = Number.isNaN(level) ? figures.noiseHighDb[row]! : level;
    if (Number.isNaN(at1m)) return "no_noise";
    const atSeat = levelOfUnitsDb(levelAtDistanceDb(at1m, asked.distanceM), units);
    if (atSeat > asked.noise_max) return Number.isNaN(level) ? "noise_bound" : "too_loud";
  }
  if (asked.budget) {
    if (currency[row] === 0) return "no_cost";
    if (currencies[currency[row]!] !== asked.budget.currency) return "other_currency";
    if (figures.cost[row]! * units > asked.budget.value) return "too_dear";
  }
  if (asked.power_max !== undefined) {
    if (Number.isNaN(figures.powerW[row]!)) return "no_power";
    if (figures.powerW[row]! * units > asked.power_max) return "too_hungry";
  }
  return null;
}

/** What sets are put in order by; those it is not known of come last. */
function keyOf({ figures }: Board, { sort }: Asked): (row: number, units: number) => number {
  const last = (value: number) => (Number.isNaN(value) ? 1e9 : value);
  switch (sort) {
    case "noise":
      return (row, units) => {
        const level = figures.noiseDb[row]!;
        return last(levelOfUnitsDb(Number.isNaN(level) ? figures.noiseHighDb[row]! : level, units));
      };
    case "cost":
      return (row, units) => last(figures.cost[row]! * units);
    case "power":
      return (row, units) => last(figures.powerW[row]! * units);
    case "cadr":
      return (row, units) => -figures.cadrM3PerH[row]! * units;
    case "units":
    case "probability":
      return (row, units) => units - 1 / (1 + figures.cadrM3PerH[row]!);
  }
}

/** What was worked out last for each board: readers ask for one probability, mostly the same. */
const SURE = new WeakMap<
  Board,
  { readonly probability: number; readonly version: number; readonly cadrM3PerH: Float64Array }
>();

/** What a unit of each row delivers with the probability asked for: one-sided, t worked out once for each dof. */
function sureCadr(board: Board, probability: number): Float64Array {
  const known = SURE.get(board);
  if (known?.probability === probability && known.version === board.version) return known.cadrM3PerH;
  const factors = new Map<number, number>();
  const factorAt = (dof: number) => factors.get(dof) ?? factors.set(dof, tQuantile(probability, dof)).get(dof)!;
  const cadrM3PerH = new Float64Array(board.ids.length);
  for (const row of board.order) {
    const prediction = board.predictionAt(row);
    cadrM3PerH[row] = intervalAt(prediction, factorAt(wholeDof(prediction.dof))).low;
  }
  SURE.set(board, { probability, version: board.version, cadrM3PerH });
  return cadrM3PerH;
}
