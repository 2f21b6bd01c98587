import { StoreError } from "../../../db/store-error.ts";
import { findTrial } from "../../../db/trials.ts";
import { askQuestion } from "../../ask-question.ts";
import { readBody } from "../../body.ts";
import type { App } from "../../endpoint.ts";
import { ERRORS } from "../../problem.ts";
import { parseId } from "../../public-id.ts";
import { MOST_CHARACTERS, QuestionText } from "../../wire/questions.ts";
import { isFromElsewhere } from "../from-elsewhere.ts";
import { showTrial } from "./trial-routes.tsx";

/** `POST /trials/{id}/questions`: what `POST /v1/trials/{id}/questions` does, for people without scripts. */
export function addQuestionForm(app: App): void {
  app.get("/trials/:id/questions", (c) => c.redirect(`/trials/${parseId("trial", c.req.param("id"))}#questions`));

  app.post("/trials/:id/questions", async (c) => {
    if (isFromElsewhere(c)) return showTrial(c, { text: "", wrong: "Another site sent this. Ask here." }, 403);
    const { id } = await findTrial(c.var.deps.db.read, parseId("trial", c.req.param("id")));
    const body = await readBody(c.req.raw);
    const sent = body.kind === "form" ? (body.fields.get("question") ?? "") : "";
    const written = sent.replaceAll("\r\n", "\n"); // as browsers send the line ends of a text area
    const question = QuestionText.safeParse(written);
    if (!question.success) {
      const wrong = written.trim() === "" ? "Write what you want to know." : WRONG;
      return showTrial(c, { text: written.slice(0, 2 * MOST_CHARACTERS), wrong }, 422);
    }
    try {
      const asked = await askQuestion(c.var.deps, id, question.data);
      return c.redirect(`/trials/${id}#${asked.id}`, 303);
    } catch (error) {
      if (!(error instanceof StoreError && error.code === "too-many-questions")) throw error;
      const refused = await showTrial(c, { text: written, wrong: error.message }, ERRORS[error.code].status);
      refused.headers.set("Retry-After", "3600");
      return refused;
    }
  });
}

const WRONG = `A question has at most ${MOST_CHARACTERS} characters, and no control characters.`;
