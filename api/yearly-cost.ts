import type { z } from "@hono/zod-openapi";
import { yearlyCost } from "../analysis/sizing/yearly-cost.ts";
import { parseQuantityText, parseUnit } from "../analysis/units.ts";
import { fromZod } from "./failure.ts";
import { type EntryQuery, filterLifeText, type YearlyCost } from "./wire/entry.ts";
import type { RankedEntry } from "./wire/leaderboard.ts";

type Out = z.infer<typeof YearlyCost>;
type Query = Partial<Pick<EntryQuery, "electricity_price" | "hours" | "filter_life">>;

/** What is known of an entry that a year of running it costs by. */
export interface CostBasis {
  readonly powerW: number | null;
  readonly statedPowerW: number | null;
  readonly filterSet: RankedEntry["cost"];
  readonly configurationJson: string;
}

const DAYS_A_YEAR = 365.25;
const HOURS_A_DAY = 24;

/**
 * What a year of running so many units costs; a filter life in hours counts running, one in days or longer the calendar.
 * Null unless the reader says how long they run.
 */
export function writeYearlyCost(query: Query, units: number, basis: CostBasis): Out | null {
  if (query.hours === undefined) return null;
  const { electricity_price: price } = query;
  const { filterSet } = basis;
  const powerW = basis.powerW ?? basis.statedPowerW;
  const hoursPerYear = query.hours * DAYS_A_YEAR;
  const life = query.filter_life === undefined ? statedLife(basis.configurationJson) : readLife(query.filter_life);
  const filterLifeHours = life && runningHours(life, query.hours);
  const year = yearlyCost(units, {
    hoursPerYear,
    powerW,
    pricePerKwh: price?.value ?? null,
    filterSetPrice: filterSet?.value ?? null,
    filterLifeHours,
  });
  const sameCurrency = price !== undefined && price.currency === filterSet?.currency;
  return {
    electricity:
      year.electricity === null || powerW === null || price === undefined
        ? null
        : {
            value: year.electricity,
            currency: price.currency,
            kwh: (units * powerW * hoursPerYear) / 1000,
            power_basis: basis.powerW === null ? "stated_by_maker" : "measured",
          },
    filters:
      year.filters === null || filterSet === null || filterLifeHours === null
        ? null
        : { value: year.filters, currency: filterSet.currency, sets: (units * hoursPerYear) / filterLifeHours },
    total: year.total === null || !sameCurrency ? null : { value: year.total, currency: price.currency },
  };
}

interface Life {
  readonly value: number;
  readonly unit: string;
}

/** The hours of running that a life comes to. */
function runningHours({ value, unit }: Life, hoursADay: number): number {
  const { code, toBase } = parseUnit(unit, "time");
  const hours = toBase(value) / 3600;
  return code === "h" ? hours : (hours * hoursADay) / HOURS_A_DAY;
}

function readLife(text: string): Life {
  const checked = filterLifeText.safeParse(text);
  if (!checked.success) throw fromZod(checked.error, ["filter_life"]);
  return parseQuantityText(text);
}

function statedLife(configurationJson: string): Life | null {
  const { filter_life } = JSON.parse(configurationJson) as { filter_life?: Life };
  return filter_life ?? null;
}
