import { findQuestion } from "../../../db/questions.ts";
import { StoreError } from "../../../db/store-error.ts";
import { answerQuestion } from "../../ask-question.ts";
import { readBody } from "../../body.ts";
import type { App } from "../../endpoint.ts";
import type { Ctx } from "../../environment.ts";
import { parseId } from "../../public-id.ts";
import { viewTrial } from "../../views.ts";
import { MOST_CHARACTERS, QuestionText } from "../../wire/questions.ts";
import { isFromElsewhere } from "../from-elsewhere.ts";
import { keyHolder } from "../key-holder.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { AnswerPage, type AnswerView } from "./answer-page.tsx";

/** `GET` and `POST /questions/{id}/answer`: what `POST /v1/questions/{id}/answers` does, for people without scripts. */
export function addAnswerPage(app: App): void {
  app.get("/questions/:id/answer", async (c) => show(c, await find(c), "", {}));

  app.post("/questions/:id/answer", async (c) => {
    const found = await find(c);
    if (isFromElsewhere(c)) return show(c, found, "", { key: "Another site sent this. Enter it here." });
    const body = await readBody(c.req.raw);
    const fields = body.kind === "form" ? body.fields : new Map<string, string>();
    const text = (fields.get("answer") ?? "").replaceAll("\r\n", "\n");
    const answer = QuestionText.safeParse(text);
    const holder = await keyHolder(c.var.deps, fields.get("key"), found.trial.submitter.id);
    if ("wrong" in holder || !answer.success) {
      return show(c, found, text.slice(0, 2 * MOST_CHARACTERS), {
        ...("wrong" in holder ? { key: holder.wrong } : {}),
        ...(answer.success ? {} : { answer: `An answer is plain text of 1 to ${MOST_CHARACTERS} characters.` }),
      });
    }
    await answerQuestion(c.var.deps, found.question.id, holder.actor, answer.data);
    return c.redirect(`/trials/${found.trial.id}#${found.question.id}`, 303);
  });
}

type Found = Pick<AnswerView, "trial" | "question">;

async function find(c: Ctx): Promise<Found> {
  const { db, publicUrl } = c.var.deps;
  const id = parseId("question", c.req.param("id") ?? "");
  const trial = await viewTrial(db, publicUrl, (await findQuestion(db.read, id)).trial);
  const question = trial.questions.find((each) => each.id === id);
  if (!question) throw new StoreError("not-found", `No question ${id} is stored.`);
  return { trial, question };
}

async function show(c: Ctx, found: Found, text: string, complaints: AnswerView["complaints"]): Promise<Response> {
  const view = { reader: readerOf(c), ...found, text, complaints };
  return htmlAnswer(c, <AnswerPage {...view} />, Object.keys(complaints).length > 0 ? 422 : 200);
}
