import { z } from "@hono/zod-openapi";
import { QuantityOut } from "./quantity.ts";
import { BAND_ALIASES, BAND_NAMES } from "./series.ts";

/** The bands that are ranked, also by AC-1's names for its sizes. */
export const BandName = z
  .enum([...BAND_NAMES, "smoke", "dust", "pollen"])
  .transform((name): (typeof BAND_NAMES)[number] =>
    name in BAND_ALIASES ? BAND_ALIASES[name as keyof typeof BAND_ALIASES] : (name as (typeof BAND_NAMES)[number]),
  );

const Interest = z.record(z.string(), z.int());

export const LeaderboardQuery = z.object({
  band: BandName.default("0.1-1.0"),
  basis: z.enum(["all"]).default("all"),
  kind: z.enum(["user_built", "commercial"]).optional(),
  unpaired: z.enum(["include", "exclude"]).default("exclude"),
  sort: z.enum(["cadr"]).default("cadr"),
  unit: z.string().max(40).default("m3/h"),
  limit: z.coerce.number().int().min(1).max(200).default(50),
  cursor: z.string().max(200).optional(),
});

export type LeaderboardQuery = z.infer<typeof LeaderboardQuery>;

export const RankedEntry = z
  .object({
    id: z.string(),
    rank: z.int(),
    rank_low: z.null(),
    rank_high: z.null(),
    configuration: z.object({ id: z.string(), title: z.string(), kind: z.enum(["user_built", "commercial"]) }),
    setting: z.string(),
    cadr: QuantityOut,
    noise: z.null(),
    power: z.null(),
    cost: z.object({ value: z.number(), currency: z.string(), date: z.string() }).nullable(),
    trials: z.int(),
    rooms: z.int(),
    submitters: z.int(),
    interest: Interest,
    unpaired: z.int(),
    frontier: z.null(),
    invented: z.boolean(),
  })
  .openapi("RankedEntry");

export const LeaderboardOut = z
  .object({
    band: z.enum(BAND_NAMES),
    basis: z.string(),
    unit: z.string(),
    as_of: z.string().nullable(),
    excluded: z.record(z.string(), z.int()),
    entries: z.array(RankedEntry),
    next: z.string().nullable(),
  })
  .openapi("Leaderboard");

export type LeaderboardOut = z.infer<typeof LeaderboardOut>;

export const EntryOut = z
  .object({
    id: z.string(),
    url: z.string(),
    configuration: z.object({
      id: z.string(),
      title: z.string(),
      kind: z.enum(["user_built", "commercial"]),
      url: z.string(),
    }),
    setting: z.string(),
    band: z.enum(BAND_NAMES),
    invented: z.boolean(),
    bases: z.object({
      all: z
        .object({
          cadr: z.union([QuantityOut, z.null()]),
          trials: z.int(),
          rooms: z.int(),
          submitters: z.int(),
          unpaired: z.int(),
          interest: Interest,
          members_sha256: z.string(),
          method_version: z.string(),
          as_of_seq: z.int(),
        })
        .nullable(),
      independent: z.null(),
      paired: z.null(),
      independent_paired: z.null(),
    }),
    trials: z.array(z.looseObject({ id: z.string(), url: z.string(), room: z.string(), state: z.string() })),
  })
  .openapi("Entry");
