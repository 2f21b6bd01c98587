import { z } from "@hono/zod-openapi";
import { BASES, Cost, Interest, orNull, Serious } from "./leaderboard.ts";
import { QuantityOut } from "./quantity.ts";
import { BAND_NAMES } from "./series.ts";
import { SoundOut } from "./sound.ts";

export const ComparisonQuery = z.object({
  entries: z
    .string()
    .max(400)
    .openapi({ description: "2 to 6 entry ids of one band, with commas between.", example: "ent-…,ent-…" }),
  basis: z.enum(BASES).default("all"),
  unit: z.string().max(40).default("m3/h"),
});

export type ComparisonQuery = z.infer<typeof ComparisonQuery>;

const Compared = z
  .object({
    id: z.string(),
    url: z.string(),
    configuration: z.object({ id: z.string(), title: z.string(), kind: z.enum(["user_built", "commercial"]) }),
    setting: z.string(),
    cadr: orNull(QuantityOut),
    noise: orNull(SoundOut),
    power: orNull(QuantityOut),
    cost: Cost.nullable().openapi({ description: "Of the whole, as stated; a price has no interval." }),
    trials: z.int(),
    rooms: z.int(),
    submitters: z.int(),
    interest: Interest,
    serious: Serious,
    conditions: z.record(z.string(), Interest).openapi({ description: "How its trials were made, by count." }),
    invented: z.boolean(),
  })
  .openapi("ComparedEntry");

const Pair = z
  .object({
    a: z.string(),
    b: z.string(),
    difference: orNull(QuantityOut).openapi({ description: "CADR of a less that of b." }),
    p_stronger: z.number().nullable().openapi({ description: "Probability that a is the stronger." }),
    paired_rooms: z.int().openapi({ description: "Rooms in which both were tested: their volume's error cancels." }),
    noise_difference: orNull(QuantityOut).openapi({ description: "L_pA of a less that of b." }),
    power_difference: orNull(QuantityOut).openapi({ description: "Power of a less that of b." }),
    parts: z.array(z.string()).openapi({ description: "What a has otherwise than b, in words." }),
    conditions: z.array(z.string()).openapi({ description: "In what their trials were made differently." }),
  })
  .openapi("ComparedPair");

export const ComparisonOut = z
  .object({
    band: z.enum(BAND_NAMES),
    basis: z.enum(BASES),
    unit: z.string(),
    entries: z.array(Compared),
    pairs: z.array(Pair),
  })
  .openapi("Comparison");

export type ComparisonOut = z.infer<typeof ComparisonOut>;
export type Compared = z.infer<typeof Compared>;
