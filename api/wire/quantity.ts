import { z } from "@hono/zod-openapi";
import type { Dimension } from "../../analysis/units.ts";
import { inBaseUnit, type QuantityIn } from "./stated-quantity.ts";

export { quantityOut } from "./quantity-out.ts";
export { notNegative, positive, type QuantityIn } from "./stated-quantity.ts";

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
      const quantity = inBaseUnit(stated, dimension, check, (message, field) => {
        context.addIssue({ code: "custom", message, path: [field] });
      });
      return quantity ?? z.NEVER;
    })
    .openapi({
      description: `A ${dimension}: value, UCUM unit (or a trade spelling), optional standard uncertainty u.`,
    });
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

/** Money is never converted: an amount, a currency and the day it was paid or asked. */
export const Money = z
  .strictObject({
    value: z.number().nonnegative(),
    currency: z.string().regex(/^[A-Z]{3}$/, "must be an ISO 4217 code such as EUR"),
    date: z.iso.date(),
  })
  .openapi("Money");
