import { z } from "@hono/zod-openapi";
import { parseUnit, UnitError } from "../../analysis/units.ts";
import { quantity } from "./quantity.ts";
import { AirConditions, CounterIn } from "./trial.ts";

/** A complaint unless the value lies within what a room, a cleaner or a counter can be. */
const within = (low: number, high: number, unit: string) => (value: number) =>
  value >= low && value <= high ? null : `must lie between ${low} and ${high} ${unit}`;

const Relative = (low: number, high: number) => quantity("fraction", within(low, high, "as a fraction"));

/** The uncertainty asked for: a flow, or a share of the CADR ("%"). Its unit tells which. */
const WantedU = z
  .strictObject({ value: z.number(), unit: z.string().max(40) })
  .transform((stated, context): { relative: number } | { m3PerH: number } => {
    const relative = isFraction(stated.unit);
    const parsed = (relative ? WANTED_SHARE : WANTED_FLOW).safeParse(stated);
    if (parsed.success) return relative ? { relative: parsed.data.value } : { m3PerH: parsed.data.value };
    for (const { message, path } of parsed.error.issues) context.addIssue({ code: "custom", message, path });
    return z.NEVER;
  })
  .openapi({ description: "A standard uncertainty of CADR: a flow, or % of the CADR." });
const WANTED_SHARE = quantity("fraction", within(1e-4, 1, "as a fraction of the CADR"));
const WANTED_FLOW = quantity("flow", within(1e-4, 1e6, "m3/h"));

function isFraction(unit: string): boolean {
  try {
    return parseUnit(unit, "fraction").dimension === "fraction";
  } catch (error) {
    if (error instanceof UnitError) return false;
    throw error;
  }
}

const PlannedCounterIn = z
  .strictObject({
    principle: CounterIn.shape.principle,
    quantity: z.enum(["number", "mass"]).optional().openapi({ description: "mass for a photometer, else number." }),
    smoothing: z
      .strictObject({ kind: z.enum(["lag", "moving_mean"]), time: quantity("time", within(0.1, 600, "s")) })
      .optional(),
    sample_flow: quantity("flow", within(1e-6, 1e3, "m3/h")).optional(),
    max_concentration: quantity("number concentration", within(1e-3, 1e9, "1/cm3")).optional(),
    noise: z
      .strictObject({
        white: Relative(0, 1).optional(),
        memory: Relative(0, 1).optional(),
        memory_time: quantity("time", within(1, 900, "s")).optional(),
        counts: z
          .number()
          .min(1e-3)
          .max(1e12)
          .optional()
          .openapi({ description: "Particles that one reading of clean air counts." }),
      })
      .default({}),
  })
  .openapi("PlannedCounter", {
    description: "A counter and its noise: SD from reading to reading, SD and time constant of the part with a memory.",
  });

/** A test that is still to be made. */
export const TestPlanIn = z
  .strictObject({
    volume: quantity("volume", within(0.01, 1e6, "m3")),
    cadr: quantity("flow", within(0.01, 1e6, "m3/h")),
    interval: quantity("time", within(0.1, 600, "s")),
    counter: z.union([PlannedCounterIn, CounterIn.shape.principle.unwrap()]).default({ principle: "other", noise: {} }),
    wanted_u: WantedU,
    natural: quantity("rate", within(1e-3, 100, "1/h")).optional(),
    ventilation: AirConditions.shape.ventilation,
    background: quantity("number concentration", within(1e-6, 1e7, "1/cm3")).optional(),
  })
  .superRefine(({ volume }, context) => {
    if ((volume.u ?? 0) > volume.value)
      context.addIssue({ code: "custom", path: ["volume", "u"], message: "u is more than the volume itself." });
  })
  .openapi("TestPlanRequest");

export type TestPlanIn = z.infer<typeof TestPlanIn>;

export const TestPlanOut = z
  .object({
    minutes: z.number().openapi({ description: "With the cleaner on, from the start of the run." }),
    natural_minutes: z.number().openapi({ description: "With the cleaner off." }),
    start_over_background: z.number().openapi({ description: "Aerosol over clean air at the start of each run." }),
    u: z.number().openapi({ description: "Expected standard uncertainty of CADR, in the unit beside it." }),
    unit: z.literal("m3/h"),
    relative_u: z.number(),
    expanded_u: z.number().openapi({ description: "What to expect behind the ±: u times the factor of 95 %." }),
    budget: z.array(z.object({ source: z.string(), u: z.number(), share: z.number() })),
    relative_expanded_u: z.number().openapi({ description: "The same as a share of the CADR." }),
    wanted_u: z.number(),
    wanted_expanded_u: z.number().openapi({ description: "The same at 95 %." }),
    reachable: z.boolean(),
    dominant: z.string(),
    trials: z.int().nullable().openapi({ description: "Trials in this room that reach it; null where none can." }),
    volume_u_needed: z
      .object({ value: z.number(), unit: z.literal("m3"), expanded_u: z.number() })
      .nullable()
      .openapi({ description: "u of the volume that would do with these lengths." }),
    natural: z.object({ value: z.number(), unit: z.literal("1/h"), assumed: z.boolean() }),
    volume: z.object({
      value: z.number(),
      unit: z.literal("m3"),
      u: z.number(),
      low: z.number(),
      high: z.number(),
      basis: z.enum(["stated", "estimate"]),
    }),
    advice: z.array(z.string()),
    cautions: z.array(z.string()),
  })
  .openapi("TestPlan");

export type TestPlanOut = z.infer<typeof TestPlanOut>;
