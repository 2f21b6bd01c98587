import { z } from "@hono/zod-openapi";
import type { Database } from "../../db/database.ts";
import { findQuestion, listQuestions } from "../../db/questions.ts";
import { findTrial } from "../../db/trials.ts";
import { answer } from "../answer.ts";
import { answerQuestion, askQuestion } from "../ask-question.ts";
import { readBody } from "../body.ts";
import { requireOwner } from "../caller.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { parseId } from "../public-id.ts";
import { readSubmission } from "../submission.ts";
import { Questions, QuestionText } from "../wire/questions.ts";

const Id = z.object({ id: z.string().openapi({ example: "trl-7K3M9QX2RV0" }) });
const Question = z.strictObject({ question: QuestionText }).openapi("QuestionIn");
const Answer = z.strictObject({ answer: QuestionText }).openapi("AnswerIn");
const All = { description: "All that was asked", content: { "application/json": { schema: Questions } } };

/** Questions to a record, from any reader, and the answers of its submitter or of the operator. */
export function addQuestions(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/trials/{id}/questions",
      summary: "What readers asked about a trial, and the answers",
      request: { params: Id },
      responses: { 200: All, ...problems(404) },
    },
    async (c) => {
      const { id } = await findTrial(c.var.deps.db.read, parseId("trial", c.req.param("id") ?? ""));
      return answer(await viewQuestions(c.var.deps.db, id));
    },
  );

  endpoint(
    app,
    {
      method: "post",
      path: "/v1/trials/{id}/questions",
      summary: "Put a question to a trial: no key is needed. It is questioned from then on, and counts as before",
      request: { params: Id, body: { content: { "application/json": { schema: Question } } } },
      responses: {
        200: { ...All, description: "The same words wait for an answer already" },
        201: All,
        ...problems(400, 404, 413, 415, 422, 429),
      },
    },
    async (c) => {
      const { db } = c.var.deps;
      const { id } = await findTrial(db.read, parseId("trial", c.req.param("id") ?? ""));
      const { question } = readSubmission(await readBody(c.req.raw), Question).trial;
      const { stored } = await askQuestion(c.var.deps, id, question);
      return answer(await viewQuestions(db, id), stored ? 201 : 200, { Location: `/v1/trials/${id}/questions` });
    },
  );

  endpoint(
    app,
    {
      method: "post",
      path: "/v1/questions/{id}/answers",
      summary: "Answer a question: the trial's submitter, or the operator",
      security: [{ key: [] }],
      request: { params: Id, body: { content: { "application/json": { schema: Answer } } } },
      responses: { 201: All, ...problems(400, 401, 403, 404, 413, 415, 422) },
    },
    async (c) => {
      const { db } = c.var.deps;
      const id = parseId("question", c.req.param("id") ?? "");
      const { trial } = await findQuestion(db.read, id);
      const author = await requireOwner(c, (await findTrial(db.read, trial)).submitter, "trial");
      const { answer: text } = readSubmission(await readBody(c.req.raw), Answer).trial;
      await answerQuestion(c.var.deps, id, author, text);
      return answer(await viewQuestions(db, trial), 201, { Location: `/v1/trials/${trial}/questions` });
    },
  );
}

async function viewQuestions(db: Database, trial: string): Promise<z.infer<typeof Questions>> {
  return { trial, questions: await listQuestions(db.read, trial) };
}
