import { z } from "@hono/zod-openapi";
import { YearlyCost } from "./entry.ts";
import { entryFilters, Interest, orNull, Serious } from "./leaderboard.ts";
import { positive, QuantityOut } from "./quantity.ts";
import { between, moneyText, quantityText } from "./query-text.ts";
import { BAND_NAMES } from "./series.ts";
import { SoundOut } from "./sound.ts";
import { AirConditions } from "./trial.ts";

const { band, kind, aerosol, min_rooms, unpaired, power_max } = entryFilters;

/** A share in a query: 0.99, 99 or 99 %. */
const shareText = z
  .string()
  .max(20)
  .transform((text, context): number => {
    const match = /^\s*(\d+(?:\.\d*)?|\.\d+)\s*(%?)\s*$/.exec(text);
    const number = Number(match?.[1]);
    const share = match && (match[2] === "%" || number > 1) ? number / 100 : number;
    if (share > 0 && share < 1) return share;
    context.addIssue("A share lies between 0 and 1, or 0 and 100 %.");
    return z.NEVER;
  })
  .openapi({ description: "A share between 0 and 1, or in %." });

export const SIZING_SORTS = ["noise", "cost", "units", "power", "probability", "cadr"] as const;

export const SizingQuery = z
  .object({
    band,
    kind,
    aerosol,
    min_rooms,
    unpaired,
    power_max: power_max.openapi({ description: "Of all units together; a bare number is in W." }),
    volume: quantityText("volume", between(0.1, 1e6, "m3"), "m3").optional(),
    volume_u: quantityText("volume", positive, "m3")
      .optional()
      .openapi({ description: "Standard uncertainty of the volume, which is else taken as known." }),
    area: quantityText("area", between(0.1, 1e6, "m2"), "m2").optional(),
    height: quantityText("length", between(0.1, 100, "m"), "m").optional(),
    natural: quantityText("rate", between(0, 100, "1/h"), "1/h")
      .optional()
      .openapi({ description: "Loss without cleaners, 1/h; else assumed by the particle size and the ventilation." }),
    ventilation: AirConditions.shape.ventilation,
    air_changes: quantityText("rate", between(0.01, 1000, "1/h"), "1/h")
      .optional()
      .openapi({ description: "Those the cleaners add, n·CADR/V." }),
    minutes: z.coerce.number().min(0.1).max(10_000).optional(),
    reduction: shareText.optional().openapi({ description: "Gone after `minutes`: 0.99 or 99 %." }),
    ratio: shareText
      .optional()
      .openapi({ description: "Level with a steady source, as a share of that without cleaners." }),
    noise_max: entryFilters.noise_max.openapi({
      description:
        "At the seat, all units together; dB. The estimate is held against it, not the end of its interval; of a bound, the bound.",
    }),
    distance: quantityText("length", between(0.1, 100, "m"), "m")
      .optional()
      .openapi({ description: "From the seat to each unit; 1 m where left out." }),
    budget: moneyText.optional(),
    probability: z.coerce
      .number()
      .min(0.5)
      .max(0.999)
      .default(0.9)
      .openapi({ description: "That the target is reached, at least." }),
    max_units: z.coerce.number().int().min(1).max(50).default(10),
    electricity_price: moneyText.optional().openapi({ description: "Of a kilowatt-hour, as in 0.30 EUR." }),
    hours: z.coerce.number().positive().max(24).optional().openapi({ description: "They run a day." }),
    sort: z
      .enum(SIZING_SORTS)
      .default("noise")
      .openapi({ description: "cadr: most clean air of all units together first." }),
    unit: z.string().max(40).default("m3/h"),
    limit: z.coerce.number().int().min(1).max(200).default(50),
  })
  .strict();

export type SizingQuery = z.infer<typeof SizingQuery>;

const TargetOut = z.object({
  kind: z.enum(["air_changes", "clearance", "ratio"]),
  air_changes: z.number().openapi({ description: "To be added by the cleaners, 1/h." }),
  needed: QuantityOut.openapi({ description: "Clean air of all units together." }),
  probability: z.number(),
  volume: z.object({ value: z.number(), unit: z.literal("m3"), u: z.number(), low: z.number(), high: z.number() }),
  natural: z.object({
    value: z.number(),
    unit: z.literal("1/h"),
    u: z.number(),
    low: z.number().openapi({ description: "Not under 0: no room makes particles of its own." }),
    high: z.number(),
    assumed: z.boolean(),
  }),
  distance: z.object({ value: z.number(), unit: z.literal("m") }),
});

/** An end of a 95 % interval; null for minutes that may never come. */
const end = z.number();
const minutesEnd = end.nullable();

const SizedSet = z
  .object({
    entry: z.object({
      id: z.string(),
      url: z.string(),
      configuration: z.object({ id: z.string(), title: z.string(), kind: z.enum(["user_built", "commercial"]) }),
      setting: z.string(),
      cadr: QuantityOut,
      prediction: z.object({ low: z.number(), high: z.number(), unit: z.string() }),
      trials: z.int(),
      rooms: z.int(),
      submitters: z.int(),
      interest: Interest,
      serious: Serious,
      invented: z.boolean(),
    }),
    units: z.int(),
    clean_air: z.object({ value: z.number(), low: z.number(), high: z.number(), unit: z.string() }).openapi({
      description: "Of all units together, with the 95 % interval of what another room is expected to see.",
    }),
    probability: z
      .number()
      .openapi({ description: "Of reaching the target, by what another room is expected to see." }),
    by_units: z.array(z.object({ units: z.int(), probability: z.number() })),
    noise: orNull(SoundOut).openapi({ description: "L_pA of all units at the seat." }),
    cost: z.object({ value: z.number(), currency: z.string() }).nullable(),
    power: orNull(QuantityOut),
    yearly_cost: orNull(YearlyCost),
    room: z
      .object({
        air_changes: z.number(),
        air_changes_low: end,
        air_changes_high: end,
        half_life_minutes: z.number().nullable(),
        half_life_minutes_low: minutesEnd,
        half_life_minutes_high: minutesEnd,
        clearance: z.array(
          z.object({ removed: z.number(), minutes: z.number().nullable(), low: minutesEnd, high: minutesEnd }),
        ),
        steady_ratio: z.number().nullable(),
        steady_ratio_low: end.nullable(),
        steady_ratio_high: end.nullable(),
      })
      .openapi({
        description:
          "What these units do in the room at the pooled CADR, with 95 % intervals by the prediction and what is not known of the room; an end is null where the air may never clear.",
      }),
  })
  .openapi("SizedSet");

export const SizingOut = z
  .object({
    band: z.enum(BAND_NAMES),
    unit: z.string(),
    target: TargetOut,
    excluded: z.record(z.string(), z.int()).openapi({
      description:
        "How many entries are left out, by reason. One that begins with enough_ is of those of which a single unit keeps to the limit, though not as many as are needed.",
    }),
    sets: z.array(SizedSet),
    near_misses: z.array(SizedSet).openapi({
      description:
        "Of entries left out: the most units within the limits, where they are likelier than not to reach the target, but less surely than asked.",
    }),
    cautions: z.array(z.string()),
  })
  .openapi("Sizing");

export type SizingOut = z.infer<typeof SizingOut>;
export type SizedSet = z.infer<typeof SizedSet>;
