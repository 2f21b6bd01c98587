import { answer } from "../answer.ts";
import { readBody } from "../body.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { RequestError } from "../problem.ts";
import { readSubmission } from "../submission.ts";
import { TestPlanIn, TestPlanOut } from "../wire/test-plan.ts";
import { writeTestPlan } from "../write-test-plan.ts";

/** `POST /v1/test-plans`: how long to log, with how much aerosol, and what to expect of it. */
export function addTestPlans(app: App): void {
  endpoint(
    app,
    {
      method: "post",
      path: "/v1/test-plans",
      summary: "Plan a test: how long to log, how much aerosol, and the uncertainty to expect; no key needed",
      request: { body: { content: { "application/json": { schema: TestPlanIn } } } },
      responses: {
        200: { description: "The shortest test that does", content: { "application/json": { schema: TestPlanOut } } },
        ...problems(400, 413, 415, 422),
      },
    },
    async (c) => {
      const body = await readBody(c.req.raw);
      if (body.kind !== "json") throw new RequestError("unsupported-media-type", "Send application/json.");
      return answer(writeTestPlan(readSubmission(body, TestPlanIn).trial));
    },
  );
}
