import type { App } from "../../endpoint.ts";
import { RequestError } from "../../problem.ts";
import type { TestPlanOut } from "../../wire/test-plan.ts";
import { writeTestPlan } from "../../write-test-plan.ts";
import { Asked } from "../form/asked.ts";
import { htmlAnswer } from "../page.tsx";
import { type Reader, readerOf } from "../reader.ts";
import { PlanPage } from "./plan-page.tsx";
import { complainAt, isAsked, PLAN_FIELDS, type PlanAsked, readPlanQuestion } from "./plan-question.ts";

/** `GET /plan`: how long to log, with how much aerosol, and what to expect of it. */
export function addPlanPage(app: App): void {
  app.get("/plan", (c) => {
    const reader = readerOf(c);
    const asked = new Asked(c, PLAN_FIELDS);
    const question = isAsked(asked) ? readPlanQuestion(asked, reader) : null;
    const plan = question && planOrComplain(asked, question, reader);
    const answer = question && plan ? { body: question.body, plan } : null;
    return htmlAnswer(c, <PlanPage reader={reader} asked={asked} answer={answer} />, asked.isRight ? 200 : 422);
  });
}

function planOrComplain(asked: Asked, { sent }: PlanAsked, { flow }: Reader): TestPlanOut | null {
  try {
    return writeTestPlan(sent, flow);
  } catch (error) {
    if (!(error instanceof RequestError && error.code === "invalid")) throw error;
    for (const { pointer, detail } of error.errors) complainAt(asked, pointer.replace("#/", "").split("/"), detail);
    return null;
  }
}
