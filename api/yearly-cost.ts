import type { z } from "@hono/zod-openapi";
import { parseQuantityText, parseUnit } from "../analysis/units.ts";
import { fromZod } from "./failure.ts";
import { type EntryQuery, filterLifeText, type YearlyCost } from "./wire/entry.ts";
import type { RankedEntry } from "./wire/leaderboard.ts";

type Out = z.infer<typeof YearlyCost>;

/** What is known of an entry that a year of running it costs by. */
export interface CostBasis {
  readonly powerW: number | null;
  readonly statedPowerW: number | null;
  readonly filterSet: RankedEntry["cost"];
  readonly configurationJson: string;
}

const DAYS_A_YEAR = 365.25;

/**
 * A year's running: electricity P/1000 · hours · 365.25 · price of a kWh, and filters cost · (a year/filter life), where
 * a life in hours counts running and a life in days or longer the calendar. Null unless the reader says how long it runs.
 */
export function yearlyCost(query: EntryQuery, basis: CostBasis): Out | null {
  if (query.hours === undefined) return null;
  const electricity = electricityOf(query, query.hours, basis);
  const filters = filtersOf(query, query.hours, basis);
  const sameCurrency = electricity && filters && electricity.currency === filters.currency;
  return {
    electricity,
    filters,
    total: sameCurrency ? { value: electricity.value + filters.value, currency: electricity.currency } : null,
  };
}

function electricityOf({ electricity_price }: EntryQuery, hoursADay: number, basis: CostBasis): Out["electricity"] {
  const powerW = basis.powerW ?? basis.statedPowerW;
  if (powerW === null || electricity_price === undefined) return null;
  const kwh = (powerW / 1000) * hoursADay * DAYS_A_YEAR;
  return {
    value: kwh * electricity_price.value,
    currency: electricity_price.currency,
    kwh,
    power_basis: basis.powerW === null ? "stated_by_maker" : "measured",
  };
}

function filtersOf({ filter_life }: EntryQuery, hoursADay: number, basis: CostBasis): Out["filters"] {
  const life = filter_life === undefined ? statedLife(basis.configurationJson) : readLife(filter_life);
  if (life === null || basis.filterSet === null) return null;
  const { value, unit } = life;
  const hours = parseUnit(unit, "time").toBase(value) / 3600;
  const running = parseUnit(unit, "time").code === "h";
  const sets = ((running ? hoursADay : 24) * DAYS_A_YEAR) / hours;
  return { value: sets * basis.filterSet.value, currency: basis.filterSet.currency, sets };
}

function readLife(text: string): { value: number; unit: string } {
  const checked = filterLifeText.safeParse(text);
  if (!checked.success) throw fromZod(checked.error, ["filter_life"]);
  return parseQuantityText(text);
}

function statedLife(configurationJson: string): { value: number; unit: string } | null {
  const { filter_life } = JSON.parse(configurationJson) as { filter_life?: { value: number; unit: string } };
  return filter_life ?? null;
}
