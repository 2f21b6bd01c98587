import { z } from "@hono/zod-openapi";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { answer } from "../answer.ts";
import { readBody } from "../body.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { findLinkedRun } from "../find-linked-run.ts";
import { requireResult } from "../store-trial.ts";
import { readSubmission } from "../submission.ts";
import { prepareTrial } from "../trial-input.ts";
import { AnalysisOut } from "../wire/analysis.ts";
import { AnalysisIn } from "../wire/trial.ts";
import { writeAnalysis } from "../write-analysis.ts";

const Form = z
  .looseObject({
    trial: z.string().optional().openapi({ description: "An AnalysisRequest as JSON; its runs name the file parts." }),
    file: z
      .string()
      .optional()
      .openapi({ format: "binary", description: "One full log, where there is no trial part." }),
    volume: z.string().optional().openapi({ example: "30m3" }),
  })
  .openapi("AnalysisForm");

/** `POST /v1/analyses`: analysed, answered, forgotten. */
export function addAnalyses(app: App): void {
  endpoint(
    app,
    {
      method: "post",
      path: "/v1/analyses",
      summary: "Analyse a trial without storing it; no key needed",
      request: {
        body: { content: { "application/json": { schema: AnalysisIn }, "multipart/form-data": { schema: Form } } },
      },
      responses: {
        200: { description: "What the runs say", content: { "application/json": { schema: AnalysisOut } } },
        ...problems(400, 413, 415, 422),
      },
    },
    async (c) => {
      const { trial, files } = readSubmission(await readBody(c.req.raw), AnalysisIn);
      const prepared = await prepareTrial(trial, files, (reference, path) =>
        findLinkedRun(c.var.deps.db, reference, path),
      );
      const analysis = writeAnalysis(analyseTrial(prepared.input), prepared.runs);
      requireResult(analysis);
      return answer(analysis);
    },
  );
}
