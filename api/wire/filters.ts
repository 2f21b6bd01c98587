import { z } from "@hono/zod-openapi";
import { orNull } from "./leaderboard.ts";
import { QuantityOut } from "./quantity.ts";
import { SoundOut } from "./sound.ts";

/** One box with the filters it was tested with. */
export const FiltersOut = z
  .object({
    configuration: z.string(),
    unit: z.string(),
    boxes: z.array(
      z.object({
        id: z.string(),
        url: z.string(),
        title: z.string(),
        filters: z.array(z.string()).openapi({ description: "Its filters, in words." }),
        differs: z.array(z.string()).openapi({ description: "What it has otherwise than the one asked for." }),
        entries: z.array(
          z.object({
            id: z.string(),
            band: z.string(),
            setting: z.string(),
            cadr: orNull(QuantityOut),
            noise: orNull(SoundOut),
            power: orNull(QuantityOut),
            trials: z.int(),
            rooms: z.int(),
            invented: z.boolean(),
          }),
        ),
      }),
    ),
  })
  .openapi("BoxByFilter", { description: "The box asked for comes first; then those alike in all but their filters." });

export type FiltersOut = z.infer<typeof FiltersOut>;
