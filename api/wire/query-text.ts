import { z } from "@hono/zod-openapi";
import { type Dimension, parseQuantityText, parseUnit, UnitError } from "../../analysis/units.ts";

/** A quantity of one dimension in a query, as `30m3` or `5 1/min`, in the base unit; a bare number is in `bare`, where there is one. */
export function quantityText(
  dimension: Dimension,
  check: (value: number) => string | null,
  bare: string | null = null,
) {
  return z
    .string()
    .max(60)
    .transform((text, context): number => {
      try {
        const isBare = bare !== null && /^\s*\S+\s*$/.test(text) && Number.isFinite(Number(text));
        const { value, unit } = isBare ? { value: Number(text), unit: bare } : parseQuantityText(text);
        const inBase = parseUnit(unit, dimension).toBase(value);
        const complaint = check(inBase);
        if (complaint === null) return inBase;
        context.addIssue(`The ${dimension} ${complaint}.`);
      } catch (error) {
        if (!(error instanceof UnitError || error instanceof RangeError)) throw error;
        context.addIssue(error.message);
      }
      return z.NEVER;
    })
    .openapi({
      description: `A ${dimension}: number and unit${bare === null ? "" : `; a bare number is in ${bare}`}.`,
    });
}

/** A complaint unless the value lies between two ends, told in words of the unit. */
export const between = (low: number, high: number, unit: string) => (value: number) =>
  value >= low && value <= high ? null : `must lie between ${low} and ${high} ${unit}`;

export interface MoneyText {
  readonly value: number;
  readonly currency: string;
}

const MONEY = /^\s*(\d+(?:\.\d+)?)[\s+]*([a-z]{3})\s*$/i;

/** Money in a query: an amount and an ISO 4217 code, as `100 EUR`. */
export const moneyText = z
  .string()
  .max(40)
  .transform((text, context): MoneyText => {
    const match = MONEY.exec(text);
    if (match) return { value: Number(match[1]), currency: match[2]!.toUpperCase() };
    context.addIssue("An amount needs its ISO 4217 currency, as in 100 EUR.");
    return z.NEVER;
  })
  .openapi({ description: "An amount and its ISO 4217 currency, as in 100 EUR." });

/** An instant in a query; the + of an offset may come as the blank that a form makes of it. */
export const instantText = z
  .string()
  .max(40)
  .transform((text) => text.trim().replace(" ", "+"))
  .pipe(z.iso.datetime({ offset: true }))
  .transform((text) => new Date(text).toISOString())
  .openapi({ description: "An instant, RFC 3339." });
