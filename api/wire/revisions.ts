import { z } from "@hono/zod-openapi";

export const Revision = z
  .object({
    revision: z.int(),
    at: z.string(),
    reason: z.string().nullable().openapi({ description: "Why it was amended; null of the first." }),
    interest: z.string().openapi({ description: "Who paid, as this revision has it." }),
    aerosol: z.string(),
    changed: z.array(z.string()).openapi({ description: "Fields of the record that differ from the revision before." }),
    sha256: z.string().openapi({ description: "Of the record as it is stored." }),
    results: z
      .array(z.object({ band: z.string(), url: z.string(), page: z.string() }))
      .openapi({ description: "Its pinned results: what this revision gave, for good." }),
  })
  .openapi("Revision");

export type Revision = z.infer<typeof Revision>;
