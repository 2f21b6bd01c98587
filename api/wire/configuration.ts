import { z } from "@hono/zod-openapi";
import { plainText } from "./plain-text.ts";
import { Money, needsDistance, notNegative, positive, quantity } from "./quantity.ts";

const Part = z.strictObject({
  part: z.enum(["fan", "filter", "housing", "ioniser", "other"]),
  count: z.int().min(1).max(1000),
  description: plainText(200),
  size: plainText(100).optional(),
  stated_flow: quantity("flow", positive).optional(),
  filter_grade: z
    .strictObject({
      system: z.enum(["MERV", "ISO16890", "EN1822", "other"]),
      grade: plainText(40),
      edition: plainText(40).optional(),
    })
    .optional(),
});

const Sound = z
  .strictObject({
    quantity: z.enum(["L_pA", "L_WA"]),
    level: quantity("sound level"),
    distance: quantity("length", positive).optional(),
  })
  .superRefine(needsDistance)
  .openapi({ description: "A level as the maker states it; L_pA with the distance it holds at." });

export const SettingIn = z.strictObject({
  label: plainText(60),
  stated_noise: Sound.optional(),
  stated_power: quantity("power", notNegative).optional(),
  stated_flow: quantity("flow", positive).optional(),
});

/** A configuration: the parts that move or clean air, their arrangement, and the settings it can run at. */
export const ConfigurationIn = z
  .strictObject({
    title: plainText(120),
    kind: z.enum(["user_built", "commercial"]),
    maker: plainText(80).optional(),
    model: plainText(80).optional(),
    arrangement: plainText(200).optional(),
    parts: z.array(Part).min(1).max(40),
    settings: z.array(SettingIn).max(20).default([]),
    costs: z
      .array(z.strictObject({ item: z.enum(["whole", "filter_set", "electricity_year"]), money: Money }))
      .max(10)
      .optional(),
    filter_life: quantity("time", positive).optional(),
    derived_from: z.string().max(40).optional(),
    plan_url: z
      .url({ protocol: /^https?$/ })
      .max(500)
      .optional(),
  })
  .superRefine((configuration, context) => {
    if (configuration.kind !== "commercial") return;
    for (const field of ["maker", "model"] as const) {
      if (configuration[field] === undefined) {
        context.addIssue({
          code: "custom",
          path: [field],
          message: "A commercial configuration needs its maker and model.",
        });
      }
    }
  })
  .openapi("Configuration");

export type ConfigurationIn = z.infer<typeof ConfigurationIn>;
