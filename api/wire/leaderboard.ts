import { z } from "@hono/zod-openapi";
import { ByAerosol } from "./by-aerosol.ts";
import { QuantityOut } from "./quantity.ts";
import { between, instantText, moneyText, quantityText } from "./query-text.ts";
import { BAND_ALIASES, BAND_NAMES } from "./series.ts";
import { SoundOut } from "./sound.ts";
import { TrialIn } from "./trial.ts";

/** The bands that are ranked, also by AC-1's names for its sizes. */
export const BandName = z
  .enum([...BAND_NAMES, "smoke", "dust", "pollen"])
  .transform((name): (typeof BAND_NAMES)[number] =>
    name in BAND_ALIASES ? BAND_ALIASES[name as keyof typeof BAND_ALIASES] : (name as (typeof BAND_NAMES)[number]),
  );

export const BASES = ["all", "independent", "paired", "independent_paired"] as const;
export const SORTS = ["cadr", "cadr_low", "cadr_per_watt", "cadr_per_cost", "noise", "noise_for_300"] as const;
export const AEROSOL_KINDS = TrialIn.shape.aerosol.unwrap().shape.kind.options;
/** Why an entry that no filter turned down is not in the list. */
export const EXCLUDED = [
  "single_unpaired",
  "mixed_aerosol",
  "no_noise",
  "noise_bound",
  "no_power",
  "no_cost",
  "other_currency",
] as const;

const noiseDb = quantityText("sound level", between(-20, 194, "dB"), "dB");
const powerW = quantityText("power", between(0, 1e6, "W"), "W");

/** What chooses the entries of a list, whatever comes of them. */
export const entryFilters = {
  band: BandName.default("0.1-1.0"),
  basis: z.enum(BASES).default("all"),
  kind: z.enum(["user_built", "commercial"]).optional(),
  aerosol: z.enum(AEROSOL_KINDS).optional(),
  noise_max: noiseDb.optional(),
  cost_max: moneyText.optional(),
  power_max: powerW.optional(),
  min_rooms: z.coerce.number().int().min(1).max(1000).optional(),
  unpaired: z.enum(["include", "exclude"]).default("exclude"),
  invented: z.enum(["include", "exclude"]).default("include"),
};

export const LeaderboardQuery = z.object({
  ...entryFilters,
  sort: z.enum(SORTS).default("cadr"),
  currency: z
    .string()
    .regex(/^[A-Za-z]{3}$/, "must be an ISO 4217 code such as EUR")
    .transform((code) => code.toUpperCase())
    .optional()
    .openapi({ description: "For cadr_per_cost without cost_max; else the commonest is taken." }),
  unit: z.string().max(40).default("m3/h"),
  limit: z.coerce.number().int().min(1).max(200).default(50),
  cursor: z.string().max(200).optional(),
  as_of: instantText.optional(),
  format: z.enum(["json", "csv", "ndjson"]).optional().openapi({ description: "Instead of the Accept header." }),
});

export type LeaderboardQuery = z.infer<typeof LeaderboardQuery>;

export const Interest = z.record(z.string(), z.int());
export const Cost = z.object({ value: z.number(), currency: z.string(), date: z.string() });
/** Not every zod reads `.nullable()` of a named schema as one with null in OpenAPI 3.1. */
export const orNull = <T extends z.ZodType>(schema: T) => z.union([schema, z.null()]);

/** How many of the trials behind a figure have a serious finding. */
export const Serious = z
  .int()
  .openapi({ description: "Trials with a serious finding: read it before you quote the figure" });

export const RankedEntry = z
  .object({
    id: z.string(),
    rank: z.int().openapi({ description: "By CADR among those shown, whatever the order; equals share one." }),
    rank_shared: z.boolean().openapi({ description: "Another one shown has the same CADR, and so the same rank." }),
    rank_low: z
      .int()
      .openapi({ description: "Best rank: 1 + those shown wholly above, by simultaneous 95 % intervals." }),
    rank_high: z.int().openapi({ description: "Worst rank: those shown less those wholly below." }),
    configuration: z.object({ id: z.string(), title: z.string(), kind: z.enum(["user_built", "commercial"]) }),
    setting: z.string(),
    cadr: QuantityOut,
    noise: orNull(SoundOut),
    power: orNull(QuantityOut),
    cost: Cost.nullable(),
    cadr_per_watt: orNull(QuantityOut),
    cadr_per_cost: orNull(QuantityOut).openapi({ description: "A price has no interval: this one is that of CADR." }),
    noise_for_300: z
      .object({
        units: z.int(),
        value: z.number().nullable(),
        low: z.number().nullable(),
        high: z.number(),
        unit: z.literal("dB"),
      })
      .nullable()
      .openapi({
        description:
          "L_pA at 1 m of as many units as bring 300 m3/h at the CADR shown; the 95 % interval is that of the noise. A bound has neither value nor low.",
      }),
    trials: z.int(),
    rooms: z.int(),
    submitters: z.int(),
    interest: Interest,
    unpaired: z.int(),
    serious: Serious,
    aerosols: Interest,
    frontier: z
      .boolean()
      .nullable()
      .openapi({ description: "Nobody shown is both quieter and stronger beyond the intervals; null without noise." }),
    invented: z.boolean(),
  })
  .openapi("RankedEntry");

export type RankedEntry = z.infer<typeof RankedEntry>;

export const LeaderboardOut = z
  .object({
    band: z.enum(BAND_NAMES),
    basis: z.enum(BASES),
    sort: z.enum(SORTS),
    unit: z.string(),
    currency: z.string().nullable(),
    as_of: z.string().nullable(),
    shown: z.int().openapi({ description: "Entries in the whole list, on all its pages." }),
    turned_down: z.int().openapi({ description: "Entries of the band and basis that do not fit what was asked." }),
    excluded: z.partialRecord(z.enum(EXCLUDED), z.int()),
    mixed: z
      .array(
        RankedEntry.pick({ id: true, configuration: true, setting: true, invented: true }).extend({
          own: orNull(ByAerosol),
        }),
      )
      .openapi({
        description:
          "The first five of those excluded as `mixed_aerosol`, each with its own figure for the aerosol asked for: that is pooled of all its trials of today, and null on any other basis or `as_of`.",
      }),
    entries: z.array(RankedEntry),
    next: z.string().nullable(),
  })
  .openapi("Leaderboard");

export type LeaderboardOut = z.infer<typeof LeaderboardOut>;
