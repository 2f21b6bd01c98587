import { z } from "@hono/zod-openapi";
import { QuantityOut } from "./quantity.ts";

/** What an entry's tests with one aerosol say together. */
export const ByAerosol = z
  .object({
    aerosol: z.string(),
    cadr: QuantityOut,
    prediction: z.object({ low: z.number(), high: z.number(), unit: z.string() }),
    trials: z.int(),
    rooms: z.int(),
    submitters: z.int(),
    interest: z.record(z.string(), z.int()),
  })
  .openapi("ByAerosol", { description: "Pooled on reading, and never ranked." });
