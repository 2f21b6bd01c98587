/** What a reader knows of running a cleaner; money in one currency. Null where it is not known. */
export interface Running {
  readonly hoursPerYear: number;
  readonly powerW: number | null;
  readonly pricePerKwh: number | null;
  readonly filterSetPrice: number | null;
  readonly filterLifeHours: number | null;
}

export interface YearlyCost {
  readonly electricity: number | null;
  readonly filters: number | null;
  /** Null where either is not known. */
  readonly total: number | null;
}

/** Cost of n units in a year: electricity n·P·h/1000·price, filters n·h/life·price of a set. */
export function yearlyCost(units: number, running: Running): YearlyCost {
  const { hoursPerYear, powerW, pricePerKwh, filterSetPrice, filterLifeHours } = running;
  if (!(units >= 0 && hoursPerYear >= 0)) throw new RangeError("units and hours are 0 or more");
  if (filterLifeHours !== null && !(filterLifeHours > 0)) throw new RangeError("a filter lives for some hours");
  const electricity =
    powerW === null || pricePerKwh === null ? null : units * (powerW / 1000) * hoursPerYear * pricePerKwh;
  const filters =
    filterSetPrice === null || filterLifeHours === null
      ? null
      : units * (hoursPerYear / filterLifeHours) * filterSetPrice;
  const total = electricity === null || filters === null ? null : electricity + filters;
  return { electricity, filters, total };
}
