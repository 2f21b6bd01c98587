import { z } from "@hono/zod-openapi";
import { plainText } from "./plain-text.ts";
import { RoomIn, RunIn, TrialIn } from "./trial.ts";

const { interest, aerosol, noise, power, trials_made, note, specimen, filter_state, counters } = TrialIn.shape;
const { ventilation, mixing_fan, temperature, relative_humidity } = RoomIn.shape;
const seconds = z.number().openapi({ description: "Seconds after the run's first row, as the answer has them" });

/**
 * What an amendment may put right: everything said about a test, and how its readings are cut. What is left out stays as it
 * is; null takes it away. Other readings are another test, another volume is a correction of the room, another cleaner is another trial.
 */
export const AmendmentIn = z
  .strictObject({
    reason: plainText(1000),
    interest: interest.optional(),
    aerosol: aerosol.nullable(),
    noise: noise.nullable(),
    power: power.nullable(),
    trials_made: trials_made.nullable(),
    note: note.nullable(),
    specimen: specimen.nullable(),
    filter_state: filter_state.nullable(),
    counters: counters.optional().openapi({ description: "All of them, under the ids they have" }),
    room: z
      .strictObject({
        ventilation: ventilation.unwrap().optional(),
        mixing_fan: mixing_fan.unwrap().optional(),
        temperature: temperature.nullable(),
        relative_humidity: relative_humidity.nullable(),
      })
      .optional(),
    runs: z
      .array(
        z.strictObject({
          n: z.int().min(0),
          mixing_fan: RunIn.shape.mixing_fan,
          ventilation: RunIn.shape.ventilation,
          from: seconds.nullable().optional(),
          to: seconds.nullable().optional(),
          marks: z
            .array(z.strictObject({ event: RunIn.shape.marks.unwrap().element.shape.event, t: seconds }))
            .max(40)
            .optional(),
          windows: z
            .array(
              z.strictObject({
                phase: z.enum(["background", "natural", "total"]),
                n: z.int().min(0).max(40).default(0),
                from: seconds,
                to: seconds,
              }),
            )
            .max(40)
            .optional(),
        }),
      )
      .max(32)
      .optional(),
  })
  .openapi("Amendment");

export type AmendmentIn = z.infer<typeof AmendmentIn>;
