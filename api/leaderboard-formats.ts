import Papa from "papaparse";
import type { LeaderboardOut, RankedEntry } from "./wire/leaderboard.ts";

/** The media types a list comes in, JSON where nothing is said. */
export const LIST_TYPES = { json: "application/json", csv: "text/csv", ndjson: "application/x-ndjson" } as const;
export type ListFormat = keyof typeof LIST_TYPES;

/** A page of the list as text of a format. CSV and NDJSON hold its entries alone; where the next ones are, Link says. */
export function listText(board: LeaderboardOut, format: ListFormat): string {
  if (format === "csv") return leaderboardCsv(board);
  if (format === "ndjson") return board.entries.map((entry) => `${JSON.stringify(entry)}\n`).join("");
  return `${JSON.stringify(board, null, 2)}\n`;
}

/** What a spreadsheet may take for a formula at the start of a cell, in its wide forms too. */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/;

function leaderboardCsv({ entries, band, basis }: LeaderboardOut): string {
  const cells = (entry: RankedEntry) => ({ ...cellsOf(entry), band, basis });
  const fields = [...COLUMNS, "band", "basis"];
  // Words of strangers are opened in spreadsheets: a cell that would run is quoted, and begins with an apostrophe.
  const csv = Papa.unparse({ fields, data: entries.map(cells) }, { escapeFormulae: FORMULA });
  return csv.endsWith("\r\n") ? csv : `${csv}\r\n`; // without rows it ends its line itself
}

function cellsOf(entry: RankedEntry) {
  const { cadr, noise, power, cost, configuration, interest } = entry;
  const { cadr_per_watt: perWatt, cadr_per_cost: perCost, noise_for_300: for300 } = entry;
  return {
    rank: entry.rank,
    rank_low: entry.rank_low,
    rank_high: entry.rank_high,
    entry: entry.id,
    configuration: configuration.id,
    title: configuration.title,
    kind: configuration.kind,
    setting: entry.setting,
    cadr: cadr.value,
    cadr_u: cadr.u,
    cadr_dof: cadr.dof,
    cadr_low: cadr.low,
    cadr_high: cadr.high,
    cadr_unit: cadr.unit,
    noise_db: noise?.value ?? null,
    noise_low_db: noise && "low" in noise ? noise.low : null,
    noise_high_db: noise?.high ?? null,
    power_w: power?.value ?? null,
    power_u_w: power?.u ?? null,
    cost: cost?.value ?? null,
    cost_currency: cost?.currency ?? null,
    cost_date: cost?.date ?? null,
    trials: entry.trials,
    rooms: entry.rooms,
    submitters: entry.submitters,
    independent: interest.independent ?? 0,
    lent_or_given: interest.lent_or_given ?? 0,
    paid: interest.paid ?? 0,
    maker_or_seller: interest.maker_or_seller ?? 0,
    unpaired: entry.unpaired,
    frontier: entry.frontier,
    invented: entry.invented,
    rank_shared: entry.rank_shared,
    power_low_w: power?.low ?? null,
    power_high_w: power?.high ?? null,
    cadr_per_watt: perWatt?.value ?? null,
    cadr_per_watt_low: perWatt?.low ?? null,
    cadr_per_watt_high: perWatt?.high ?? null,
    cadr_per_cost: perCost?.value ?? null,
    cadr_per_cost_low: perCost?.low ?? null,
    cadr_per_cost_high: perCost?.high ?? null,
    units_for_300: for300?.units ?? null,
    noise_for_300_db: for300?.value ?? null,
    noise_for_300_low_db: for300?.low ?? null,
    noise_for_300_high_db: for300?.high ?? null,
    serious: entry.serious,
  };
}

const COLUMNS: readonly (keyof ReturnType<typeof cellsOf>)[] = [
  "rank",
  "rank_low",
  "rank_high",
  "entry",
  "configuration",
  "title",
  "kind",
  "setting",
  "cadr",
  "cadr_u",
  "cadr_dof",
  "cadr_low",
  "cadr_high",
  "cadr_unit",
  "noise_db",
  "noise_low_db",
  "noise_high_db",
  "power_w",
  "power_u_w",
  "cost",
  "cost_currency",
  "cost_date",
  "trials",
  "rooms",
  "submitters",
  "independent",
  "lent_or_given",
  "paid",
  "maker_or_seller",
  "unpaired",
  "frontier",
  "invented",
  "rank_shared",
  "power_low_w",
  "power_high_w",
  "cadr_per_watt",
  "cadr_per_watt_low",
  "cadr_per_watt_high",
  "cadr_per_cost",
  "cadr_per_cost_low",
  "cadr_per_cost_high",
  "units_for_300",
  "noise_for_300_db",
  "noise_for_300_low_db",
  "noise_for_300_high_db",
  "serious",
];
