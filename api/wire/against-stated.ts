import { z } from "@hono/zod-openapi";

const Ends = { value: z.number(), u: z.number(), low: z.number(), high: z.number() };

/** What was measured against what the maker or builder states. */
export const AgainstStated = z
  .object({
    noise: z
      .object({ ...Ends, unit: z.literal("dB") })
      .nullable()
      .openapi({ description: "Measured less stated, both at 1 m." }),
    power: z.object(Ends).nullable().openapi({ description: "Measured over stated." }),
    flow: z
      .object({ ...Ends, stated: z.object({ value: z.number(), unit: z.literal("m3/h") }) })
      .nullable()
      .openapi({
        description: "CADR over the stated air flow, the setting's or that of all fans: over 1 is impossible.",
      }),
  })
  .openapi("AgainstStated");
export type AgainstStated = z.infer<typeof AgainstStated>;
