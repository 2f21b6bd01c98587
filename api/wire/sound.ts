import { z } from "@hono/zod-openapi";
import { interval95 } from "../../analysis/estimate.ts";
import { NOT_RATED, type NoiseRating } from "../../analysis/noise-rating.ts";

const A_WEIGHTED = { unit: z.literal("dB"), weighting: z.literal("A") };

/** L_pA at 1 m on its way out: a level with its 95 % interval, or an upper bound where the background hides it. */
export const SoundOut = z
  .union([
    z.object({
      value: z.number(),
      ...A_WEIGHTED,
      u: z.number(),
      dof: z.number().nullable(),
      low: z.number(),
      high: z.number(),
    }),
    z.object({ value: z.null(), ...A_WEIGHTED, high: z.number(), bound: z.literal("upper") }),
  ])
  .openapi("SoundOut", { description: "L_pA at 1 m. A bound has no value; its high is the end of the 95 % interval." });

export type SoundOut = z.infer<typeof SoundOut>;

/** A trial's noise: what was measured and what the maker states, never mixed, and each reading by itself. */
export const NoiseResults = z
  .object({
    measured: z.union([SoundOut, z.null()]),
    stated_by_maker: z.union([SoundOut, z.null()]),
    readings: z.array(
      z.object({
        n: z.int(),
        basis: z.enum(["measured", "stated_by_maker"]),
        at_1m: z.union([SoundOut, z.null()]),
        background_correction: z.number().nullable().openapi({ description: "K₁ in dB; null without a background." }),
        not_rated: z.enum(NOT_RATED).nullable(),
      }),
    ),
  })
  .openapi("NoiseResults");

export type NoiseResults = z.infer<typeof NoiseResults>;

/** Writes a rating; null where nothing could be rated. */
export function soundOut(rating: NoiseRating | null): SoundOut | null {
  if (rating === null || rating.kind === "not-rated") return null;
  const unit = { unit: "dB", weighting: "A" } as const;
  if (rating.kind === "upper-bound") return { value: null, ...unit, high: rating.highDb, bound: "upper" };
  const { value, u, dof } = rating.level;
  return { value, ...unit, u, dof: dof === Infinity ? null : dof, ...interval95(rating.level) };
}
