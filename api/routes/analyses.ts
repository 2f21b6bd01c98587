import { z } from "@hono/zod-openapi";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { findSpread } from "../../db/spreads.ts";
import { answer } from "../answer.ts";
import { type Body, readBody } from "../body.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import type { Ctx } from "../environment.ts";
import { findLinkedRun } from "../find-linked-run.ts";
import { findTrialInput } from "../find-trial-input.ts";
import { invalid, RequestError } from "../problem.ts";
import { parseId } from "../public-id.ts";
import { requireResult } from "../require-result.ts";
import { readSubmission } from "../submission.ts";
import { checkWork, prepareTrial } from "../trial-input.ts";
import { AnalysisOut } from "../wire/analysis.ts";
import { AnalysisIn, StoredAnalysisIn } from "../wire/trial.ts";
import { withExpectation, writeAnalysis } from "../write-analysis.ts";

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
        body: {
          content: {
            "application/json": { schema: z.union([AnalysisIn, StoredAnalysisIn]) },
            "multipart/form-data": { schema: Form },
          },
        },
      },
      responses: {
        200: { description: "What the runs say", content: { "application/json": { schema: AnalysisOut } } },
        ...problems(400, 413, 415, 422),
      },
    },
    async (c) => {
      const body = await readBody(c.req.raw);
      if (body.kind === "json" && namesStoredTrial(body.value))
        return answer(withExpectation(await analyseStored(c, body), await findSpread(c.var.deps.db.read)));
      const { trial, files, explain } = readSubmission(body, AnalysisIn);
      const prepared = await prepareTrial(trial, files, (reference, path) =>
        findLinkedRun(c.var.deps.db, reference, path),
      ).catch((error: unknown) => {
        throw error instanceof RequestError ? explain(error) : error;
      });
      const analysis = writeAnalysis(analyseTrial(prepared.input), prepared.runs, prepared.volume);
      requireResult(analysis);
      return answer(withExpectation(analysis, await findSpread(c.var.deps.db.read)));
    },
  );
}

function namesStoredTrial(body: unknown): boolean {
  return typeof body === "object" && body !== null && "trial" in body;
}

/** A stored trial analysed again, with windows of the reader's own where they are given. */
async function analyseStored(c: Ctx, body: Body): Promise<AnalysisOut> {
  const { trial, windows } = readSubmission(body, StoredAnalysisIn).trial;
  const { input, volume } = await findTrialInput(c.var.deps.db.read, parseId("trial", trial));
  windows.forEach(({ run, from, to }, i) => {
    if (run >= input.runs.length) throw invalid(["windows", i, "run"], `The trial has ${input.runs.length} runs.`);
    if (!(to > from)) throw invalid(["windows", i, "to"], "A window must end after it begins.");
  });
  const runs = input.runs.map((run) => {
    const own = windows.filter((window) => window.run === run.index);
    if (own.length === 0) return run;
    return { ...run, windows: own.map(({ phase, n, from, to }) => ({ phase, n, fromS: from, toS: to })) };
  });
  checkWork(runs);
  const analysis = writeAnalysis(
    analyseTrial({ ...input, runs }),
    runs.map((run) => ({ input: run })),
    volume,
  );
  requireResult(analysis);
  return analysis;
}
