import { z } from "@hono/zod-openapi";
import { plainText } from "./plain-text.ts";

export const MOST_CHARACTERS = 2000;

/** What may be asked. */
export const QuestionText = plainText(MOST_CHARACTERS);

/** What readers asked about one trial. Erased words are null. */
export const Questions = z
  .object({
    trial: z.string(),
    questions: z.array(
      z.object({
        id: z.string(),
        revision: z.int().openapi({ description: "The trial's revision it was put to" }),
        at: z.string(),
        question: z.string().nullable(),
        answers: z.array(z.object({ at: z.string(), author: z.string(), answer: z.string().nullable() })),
      }),
    ),
  })
  .openapi("Questions");
