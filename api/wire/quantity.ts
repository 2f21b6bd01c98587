import { z } from "@hono/zod-openapi";
import { type Estimate, interval95 } from "../../analysis/estimate.ts";
import { type Dimension, parseUnit, UnitError } from "../../analysis/units.ts";

/** A quantity as it came in, in the base unit of its dimension, with what was stated beside it. */
export interface QuantityIn {
  readonly value: number;
  /** Standard uncertainty in the base unit, null where none was stated. */
  readonly u: number | null;
}

const Stated = z.strictObject({
  value: z.number(),
  unit: z.string().max(40),
  u: z.number().nonnegative().optional(),
});

const StatedSound = Stated.extend({ weighting: z.literal("A").optional() });

/** Schema of a quantity of one dimension; the parsed value is in the base unit of analysis/units.ts. */
export function quantity(dimension: Dimension, check: (value: number) => string | null = () => null) {
  // Every level here is A-weighted: dB(A) says so in its unit, dB beside it.
  return (dimension === "sound level" ? StatedSound : Stated)
    .transform((stated, context): QuantityIn => {
      const unit = unitOrIssue(stated.unit, dimension, (message) => {
        context.addIssue({ code: "custom", message, path: ["unit"] });
      });
      if (!unit) return z.NEVER;
      const value = unit.toBase(stated.value);
      const complaint = isComputable(value) ? check(value) : BEYOND;
      if (complaint) {
        context.addIssue({ code: "custom", message: `The ${dimension} ${complaint}.`, path: ["value"] });
        return z.NEVER;
      }
      const u = stated.u === undefined ? null : stated.u * unit.scale;
      if (u !== null && !isComputable(u)) {
        context.addIssue({ code: "custom", message: `The uncertainty of the ${dimension} ${BEYOND}.`, path: ["u"] });
        return z.NEVER;
      }
      return { value, u };
    })
    .openapi({
      description: `A ${dimension}: value, UCUM unit (or a trade spelling), optional standard uncertainty u.`,
    });
}

const BEYOND = "is beyond what can be computed with: 1e-12 to 1e12 in base units";

/** Uncertainties are raised to the fourth power and divided by each other: both ends must survive that as a double. */
function isComputable(x: number): boolean {
  return x === 0 || (Math.abs(x) >= 1e-12 && Math.abs(x) <= 1e12);
}

/** A sound pressure level holds at a distance; a sound power level belongs to the source alone. */
export function needsDistance(sound: { quantity: string; distance?: unknown }, context: z.RefinementCtx): void {
  if (sound.quantity === "L_pA" && sound.distance === undefined) {
    context.addIssue({
      code: "custom",
      path: ["distance"],
      message: "A sound pressure level L_pA needs the distance it was read at.",
    });
  }
}

/** A complaint unless the value is above zero. */
export const positive = (value: number) => (value > 0 ? null : "must be greater than 0");
/** A complaint unless the value is zero or more. */
export const notNegative = (value: number) => (value >= 0 ? null : "must not be negative");

export function unitOrIssue(text: string, dimension: Dimension, complain: (message: string) => void) {
  try {
    return parseUnit(text, dimension);
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    complain(error.message);
    return null;
  }
}

/** A quantity on its way out: value, unit, u, dof (null: infinite) and the ends of the 95 % interval. */
export const QuantityOut = z
  .object({
    value: z.number(),
    unit: z.string(),
    u: z.number(),
    dof: z.number().nullable(),
    low: z.number(),
    high: z.number(),
  })
  .openapi("QuantityOut");

export type QuantityOut = z.infer<typeof QuantityOut>;

/** Writes an estimate held in the base unit; `unitCode` converts it where asked for. */
export function quantityOut(estimate: Estimate, baseCode: string, unitCode = baseCode): QuantityOut {
  const unit = parseUnit(unitCode);
  const { low, high } = interval95(estimate);
  return {
    value: unit.fromBase(estimate.value),
    unit: unit.code,
    u: estimate.u / unit.scale,
    dof: estimate.dof === Infinity ? null : estimate.dof,
    low: unit.fromBase(low),
    high: unit.fromBase(high),
  };
}

/** Money is never converted: an amount, a currency and the day it was paid or asked. */
export const Money = z
  .strictObject({
    value: z.number().nonnegative(),
    currency: z.string().regex(/^[A-Z]{3}$/, "must be an ISO 4217 code such as EUR"),
    date: z.iso.date(),
  })
  .openapi("Money");
