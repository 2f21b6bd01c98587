import { z } from "@hono/zod-openapi";
import { BAND_ALIASES, BAND_NAMES, isBandName } from "./band-names.ts";
import { isPlain, NOT_PLAIN } from "./is-plain.ts";
import { ReadingColumn, TimeColumn } from "./reading-column.ts";

export { BAND_ALIASES, BAND_NAMES };

const ChannelId = z
  .string()
  .min(1)
  .max(60)
  .refine(isPlain, NOT_PLAIN)
  .refine((id) => !isBandName(id), {
    message: `is the name of a band; the bands are ${[...BAND_NAMES, ...Object.keys(BAND_ALIASES)].join(", ")}`,
  });

const ParticleSize = z.number().min(1e-4).max(1e4); // from single molecules to a centimetre

const channelFields = {
  quantity: z.enum(["number", "mass", "raw"]),
  unit: z
    .string()
    .max(40)
    .refine(isPlain, NOT_PLAIN)
    .optional()
    .openapi({ description: "1/cm3 where number, ug/m3 where mass, when left out." }),
  from_um: ParticleSize.nullable().optional(),
  to_um: ParticleSize.nullable().optional(),
  cumulative: z.enum(["none", "above", "below"]).optional(),
  ceiling: z.number().positive().optional(),
};

/** One column of readings; null marks a missing value. */
export const ChannelIn = z.strictObject({ id: ChannelId, ...channelFields, values: ReadingColumn });

/** A time of the run in its own t.unit: a number, or a stamp or clock as the log writes them (RFC 3339 in JSON columns). */
export const RunTime = z.union([z.number(), z.string().trim().min(1).max(40)]);

export const SeriesIn = z
  .strictObject({
    t: z.strictObject({
      unit: z.enum(["s", "min", "h", "datetime"]),
      values: TimeColumn,
    }),
    channels: z.array(ChannelIn).min(1).max(64),
    from: RunTime.optional(),
    to: RunTime.optional(),
  })
  .openapi("Series");

/** Which columns of an uploaded file are what; without it they are guessed. */
export const ColumnsIn = z
  .strictObject({
    t: z
      .strictObject({
        column: z.string().max(200),
        unit: z.enum(["s", "min", "h", "datetime"]).optional(),
        day_month: z
          .enum(["dmy", "mdy"])
          .optional()
          .openapi({ description: "The order of day and month, where the log does not tell." }),
      })
      .optional()
      .openapi({ description: "The time is guessed where it is left out." }),
    channels: z
      .array(z.strictObject({ column: z.string().max(200), id: ChannelId.optional(), ...channelFields }))
      .min(1)
      .max(64),
  })
  .openapi("Columns");

export type SeriesIn = z.infer<typeof SeriesIn>;
export type ColumnsIn = z.infer<typeof ColumnsIn>;
