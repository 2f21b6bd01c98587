import { z } from "@hono/zod-openapi";
import type { DecidedState } from "../../db/insert-state.ts";
import { answer } from "../answer.ts";
import { readBody } from "../body.ts";
import { requireOperator } from "../caller.ts";
import { changeState } from "../change-state.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { invalid } from "../problem.ts";
import { parseId } from "../public-id.ts";
import { readSubmission } from "../submission.ts";
import { viewTrial } from "../views.ts";
import { plainText } from "../wire/plain-text.ts";
import { Stored } from "./trials.ts";

const STATES = { list: "listed", hold: "pending", withdraw: "withdrawn" } as const satisfies Record<
  string,
  DecidedState
>;

const ModerationIn = z
  .strictObject({
    subject: z.string().max(40).openapi({ example: "trl-7K3M9QX2RV0", description: "A trial" }),
    action: z.enum(["list", "hold", "withdraw"]),
    reason: plainText(1000),
  })
  .openapi("Moderation");

/** What an operator decides about a trial: with a reason, and in the log for all to read. */
export function addModeration(app: App): void {
  endpoint(
    app,
    {
      method: "post",
      path: "/v1/moderation",
      summary: "Operator: list a trial that waits or was questioned, hold one until it is checked, or withdraw it",
      security: [{ key: [] }],
      request: { body: { content: { "application/json": { schema: ModerationIn } } } },
      responses: { 200: Stored, ...problems(400, 401, 403, 404, 409, 415, 422) },
    },
    async (c) => {
      await requireOperator(c, "lists, holds and withdraws");
      const { subject, action, reason } = readSubmission(await readBody(c.req.raw), ModerationIn).trial;
      const id = subjectId(subject);
      await changeState(c.var.deps, id, STATES[action], "operator", reason);
      return answer(await viewTrial(c.var.deps.db, c.var.deps.publicUrl, id));
    },
  );
}

/** @throws RequestError "invalid" where it names no trial by its form; whether it is stored is asked later */
function subjectId(text: string): string {
  try {
    return parseId("trial", text);
  } catch (error) {
    throw invalid(["subject"], (error as Error).message);
  }
}
