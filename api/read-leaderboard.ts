import { parseUnit, UnitError } from "../analysis/units.ts";
import type { Database } from "../db/database.ts";
import type { Pooled } from "../db/entries.ts";
import { countSingleUnpaired, findLastChange, listStandings, type Standing } from "../db/leaderboard.ts";
import { invalid } from "./problem.ts";
import type { LeaderboardOut, LeaderboardQuery } from "./wire/leaderboard.ts";
import { type QuantityOut, quantityOut } from "./wire/quantity.ts";

/** One page of the leaderboard of a band, strongest first. `href` is the request's own path and query. */
export async function readLeaderboard(db: Database, query: LeaderboardQuery, href: string): Promise<LeaderboardOut> {
  const unit = flowUnit(query.unit);
  const after = query.cursor === undefined ? null : readCursor(query.cursor);
  const kind = query.kind ?? null;
  const unpaired = query.unpaired === "include";
  const [found, singles, asOf] = await Promise.all([
    listStandings(db, { band: query.band, kind, unpaired, limit: query.limit + 1, after }),
    unpaired ? 0 : countSingleUnpaired(db, query.band, kind),
    findLastChange(db, query.band),
  ]);
  const shown = found.slice(0, query.limit);
  const ranksBefore = after?.rank ?? 0;
  const last = shown.at(-1);
  const more = found.length > shown.length && last;
  return {
    band: query.band,
    basis: query.basis,
    unit,
    as_of: asOf,
    excluded: singles > 0 ? { single_unpaired: singles } : {},
    entries: shown.map((standing, i) => rankedEntry(standing, ranksBefore + i + 1, unit)),
    next: more
      ? nextPage(href, { cadrM3PerH: last.pooled.cadrM3PerH!, entry: last.entry, rank: ranksBefore + shown.length })
      : null,
  };
}

/** The canonical code of a flow unit asked for in a query. */
export function flowUnit(text: string): string {
  try {
    return parseUnit(text, "flow").code;
  } catch (error) {
    if (error instanceof UnitError) throw invalid(["unit"], error.message);
    throw error;
  }
}

/** A pooled figure on its way out, null where no trial counts any more. */
export function pooledCadr(pooled: Pooled, unit: string): QuantityOut | null {
  if (pooled.cadrM3PerH === null || pooled.u === null) return null;
  return quantityOut({ value: pooled.cadrM3PerH, u: pooled.u, dof: pooled.dof ?? Infinity }, "m3/h", unit);
}

function rankedEntry(standing: Standing, rank: number, unit: string): LeaderboardOut["entries"][number] {
  const { pooled } = standing;
  const words = JSON.parse(standing.configurationJson) as {
    costs?: { item: string; money: { value: number; currency: string; date: string } }[];
  };
  return {
    id: standing.entry,
    rank,
    rank_low: null,
    rank_high: null,
    configuration: { id: standing.configuration, title: standing.title, kind: standing.kind },
    setting: standing.setting,
    cadr: pooledCadr(pooled, unit)!,
    noise: null,
    power: null,
    cost: words.costs?.find(({ item }) => item === "whole")?.money ?? null,
    trials: pooled.trials,
    rooms: pooled.rooms,
    submitters: pooled.submitters,
    interest: JSON.parse(pooled.interestJson) as Record<string, number>,
    unpaired: pooled.unpaired,
    frontier: null,
    invented: standing.invented,
  };
}

interface Cursor {
  readonly cadrM3PerH: number;
  readonly entry: string;
  readonly rank: number;
}

function nextPage(href: string, { cadrM3PerH, entry, rank }: Cursor): string {
  const url = new URL(href);
  url.searchParams.set("cursor", `${cadrM3PerH}~${entry}~${rank}`);
  return url.toString();
}

function readCursor(text: string): Cursor {
  const [cadr, entry, rank, ...rest] = text.split("~");
  const cursor = { cadrM3PerH: Number(cadr), entry: entry ?? "", rank: Number(rank) };
  if (
    rest.length ||
    !cadr ||
    !rank ||
    !Number.isFinite(cursor.cadrM3PerH) ||
    !Number.isInteger(cursor.rank) ||
    cursor.rank < 0
  ) {
    throw invalid(["cursor"], "A cursor is taken from `next` as it stands.");
  }
  return cursor;
}
