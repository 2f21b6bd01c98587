import { frontier, type NoiseAgainstCadr } from "../analysis/frontier.ts";
import { rankRange } from "../analysis/ranks.ts";
import type { Board } from "./leaderboard-board.ts";

/** Where a row stands among those shown. */
export interface Standing {
  readonly rank: number;
  /** Another one shown has the very same CADR. */
  readonly rankShared: boolean;
  readonly rankLow: number;
  readonly rankHigh: number;
  /** Null where its noise is not known. */
  readonly frontier: boolean | null;
}

/** Ranks by CADR, and the frontier of noise against it, of a page's rows among all shown, which come strongest first. */
export function standingsOf(board: Board, shown: Uint32Array, page: readonly number[]): Standing[] {
  const { cadrM3PerH, simultaneousLow, simultaneousHigh } = board.figures;
  const lows = Float64Array.from(page, (row) => simultaneousLow[row]!).sort();
  const highs = Float64Array.from(page, (row) => simultaneousHigh[row]!).sort();
  const above = new Uint32Array(page.length + 1); // [c]: shown rows that lie wholly above c of the page's rows
  const below = new Uint32Array(page.length + 1); // [c]: shown rows that reach up to the low ends of c of them
  for (let i = 0; i < shown.length; i++) {
    const row = shown[i]!;
    above[countBefore(highs, simultaneousLow[row]!, false)]!++;
    below[countBefore(lows, simultaneousHigh[row]!, true)]!++;
  }
  for (let c = page.length; c > 0; c--) above[c - 1]! += above[c]!;
  for (let c = 0; c < page.length; c++) below[c + 1]! += below[c]!;

  const onFrontier = frontierOf(board, shown, page);
  return page.map((row, i) => {
    const whollyAbove = above[countBefore(highs, simultaneousHigh[row]!, false) + 1]!;
    const whollyBelow = below[countBefore(lows, simultaneousLow[row]!, false)]!;
    const { best, worst } = rankRange(shown.length, whollyAbove, whollyBelow);
    const mine = cadrM3PerH[row]!;
    const rank = 1 + countStronger(shown, cadrM3PerH, mine);
    const rankShared = cadrM3PerH[shown[rank]!] === mine; // shown[rank - 1] is the first of its equals
    return { rank, rankShared, rankLow: best, rankHigh: worst, frontier: onFrontier[i]! };
  });
}

/** How many of the ascending ends are under a value, or equal to it where `orEqual`. */
function countBefore(ends: Float64Array, value: number, orEqual: boolean): number {
  if (value < ends[0]!) return 0; // most rows of a long list are far from the page
  if (value > ends[ends.length - 1]!) return ends.length;
  let from = 0;
  let to = ends.length;
  while (from < to) {
    const middle = (from + to) >> 1;
    const end = ends[middle]!;
    if (end < value || (orEqual && end === value)) from = middle + 1;
    else to = middle;
  }
  return from;
}

function countStronger(shown: Uint32Array, cadrM3PerH: Float64Array, mine: number): number {
  let [from, to] = [0, shown.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (cadrM3PerH[shown[middle]!]! > mine) from = middle + 1;
    else to = middle;
  }
  return from;
}

/**
 * The frontier for the page's rows. Of all shown only those can keep somebody off it that nobody is both as quiet and as
 * strong as, a handful of any list: they alone are looked at.
 */
function frontierOf(board: Board, shown: Uint32Array, page: readonly number[]): (boolean | null)[] {
  const { low, high, noiseLowDb, noiseHighDb } = board.figures;
  const rated = page.filter((row) => !Number.isNaN(noiseHighDb[row]!));
  const against = (row: number): NoiseAgainstCadr => ({
    cadrM3PerH: { low: low[row]!, high: high[row]! },
    noiseDb: { low: noiseLowDb[row]!, high: noiseHighDb[row]! },
  });
  const on = frontier([...rated, ...bestOf(shown, low, noiseHighDb)].map(against));
  const flags = new Map(rated.map((row, i) => [row, on[i]!]));
  return page.map((row) => flags.get(row) ?? null);
}

/** What was found of a selection, which a board keeps while it stands as it does. */
const BEST = new WeakMap<Uint32Array, number[]>();

function bestOf(shown: Uint32Array, low: Float64Array, noiseHighDb: Float64Array): number[] {
  const best = BEST.get(shown) ?? surelyBest(shown, low, noiseHighDb);
  BEST.set(shown, best);
  return best;
}

/**
 * Rows whose low end of CADR is over that of all whose high end of noise is at most theirs, loudest first: both ends fall
 * along them, and as the rows shown do too, new ones come near the end. Their ends are kept beside them.
 */
function surelyBest(shown: Uint32Array, low: Float64Array, noiseHighDb: Float64Array): number[] {
  const best: number[] = [];
  const noises: number[] = [];
  const lows: number[] = [];
  for (let i = 0; i < shown.length; i++) {
    const row = shown[i]!;
    const noise = noiseHighDb[row]!;
    const mine = low[row]!;
    if (Number.isNaN(noise)) continue;
    let louder = 0;
    let to = noises.length;
    while (louder < to) {
      const middle = (louder + to) >> 1;
      if (noises[middle]! > noise) louder = middle + 1;
      else to = middle;
    }
    if (louder < lows.length && lows[louder]! >= mine) continue;
    let from = louder; // those louder and no stronger give way
    while (from > 0 && lows[from - 1]! <= mine) from--;
    best.splice(from, louder - from, row);
    noises.splice(from, louder - from, noise);
    lows.splice(from, louder - from, mine);
  }
  return best;
}
