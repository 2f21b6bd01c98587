import type { EntryOut } from "../../wire/entry.ts";
import { figures } from "../figures.ts";
import { Missing, Money } from "../quantity.tsx";

interface Props {
  readonly of: EntryOut["yearly_cost"];
  /** A year's electricity as whoever described it states it. */
  readonly electricity: EntryOut["costs"]["electricity_year"];
}

/** What running it costs a year, as far as it is known; prices have no interval. */
export function YearCost({ of, electricity }: Props) {
  const stated = electricity && (
    <small>
      ; electricity is stated as <Money of={electricity} /> a year
    </small>
  );
  if (of === null) {
    return (
      <>
        <small>
          <a href="#f-hours">say how long it runs</a>
        </small>
        {stated}
      </>
    );
  }
  const parts = [
    of.electricity && (
      <>
        electricity <Money of={of.electricity} /> ({figures(of.electricity.kwh, 0).value} kWh at the power{" "}
        {of.electricity.power_basis === "measured" ? "measured" : "stated"}; no interval: price and hours are taken as
        exact, and it is as uncertain as the power)
      </>
    ),
    of.filters && (
      <>
        filters <Money of={of.filters} /> ({Number(of.filters.sets.toPrecision(2))} sets)
      </>
    ),
  ].filter((part) => part !== null);
  return (
    <>
      {of.total ? <Money of={of.total} /> : <Missing why={whyNoTotal(of)} />}
      <small>
        {parts.length > 0 && ": "}
        {parts.map((part, i) => (
          <>
            {i > 0 && ", "}
            {part}
          </>
        ))}
      </small>
      {stated}
    </>
  );
}

function whyNoTotal({ electricity, filters }: NonNullable<Props["of"]>): string {
  if (electricity && filters) return "in two currencies";
  if (!electricity && !filters) return "neither the price of electricity nor that of filters and their life is known";
  return electricity ? "price or life of the filters is not stated" : "no power, or no price of electricity";
}
