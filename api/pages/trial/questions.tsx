import type { TrialView } from "../../views.ts";
import { instant } from "../figures.ts";
import { ACTOR_WORDS } from "./record-words.ts";

/** A question as it was sent, to be shown again with what is wrong with it. */
export interface Asked {
  readonly text: string;
  readonly wrong: string | null;
}

export const NOTHING_ASKED: Asked = { text: "", wrong: null };

/** What readers asked about a test, what was answered, and the form by which anybody asks. */
export function Questions({ trial, asked }: { readonly trial: TrialView; readonly asked: Asked }) {
  const { questions, revision } = trial;
  return (
    <section class={questions.length === 0 ? "questions unprinted" : "questions"} id="questions">
      <h2>Questions</h2>
      {questions.length === 0 ? (
        <p>Nobody has asked anything about this test.</p>
      ) : (
        <ol>
          {questions.map(({ id, at, question, answers, revision: of }) => (
            <li id={id}>
              <p class="quiet">
                A reader, {instant(at)}
                {of !== revision && `, of revision ${of}`}
              </p>
              <Said words={question} />
              {answers.map((given) => (
                <div class="answer">
                  <p class="quiet">
                    Answered by {authorWords(given.author, trial.submitter.id)}, {instant(given.at)}
                  </p>
                  <Said words={given.answer} />
                </div>
              ))}
              {answers.length === 0 && <p class="quiet">No answer yet.</p>}
              <p class="unprinted">
                Your test? <a href={`/questions/${id}/answer`}>Answer it</a>
              </p>
            </li>
          ))}
        </ol>
      )}
      <QuestionForm id={trial.id} asked={asked} />
    </section>
  );
}

/** Said above the figures while a question stands. */
export function QuestionedNote({ trial: { state, questions } }: { readonly trial: TrialView }) {
  if (state !== "questioned") return null;
  const open = questions.filter(({ answers }) => answers.length === 0).length;
  return (
    <p role="note">
      <a href="#questions">{questions.length === 1 ? "A question was" : `${questions.length} questions were`} put</a> to
      this test
      {open > 0 ? `, ${open === questions.length ? "not" : `${open} not`} answered yet` : " and answered"}. It counts as
      before.
    </p>
  );
}

function Said({ words }: { readonly words: string | null }) {
  if (words === null) return <p class="missing">The words were erased.</p>;
  return (
    <p class="words">
      <bdi>{words}</bdi>
    </p>
  );
}

function authorWords(author: string, submitter: string): string {
  return author === submitter ? "its tester" : (ACTOR_WORDS[author] ?? author);
}

function QuestionForm({ id, asked: { text, wrong } }: { readonly id: string; readonly asked: Asked }) {
  const tied = wrong === null ? {} : { "aria-invalid": "true" as const };
  return (
    <form
      class="unprinted written"
      id="ask"
      action={`/trials/${id}/questions#ask`}
      method="post"
      enctype="multipart/form-data"
    >
      <div class="field">
        <label for="question">Ask about this test</label>
        <textarea
          id="question"
          name="question"
          rows={3}
          maxlength={2000}
          required
          aria-describedby={wrong === null ? "question-hint" : "question-error question-hint"}
          {...tied}
        >
          {text}
        </textarea>
        {wrong !== null && (
          <p class="error" id="question-error">
            <bdi>{wrong}</bdi>
          </p>
        )}
        <p class="hint" id="question-hint">
          No key and no name are needed. Everybody can read what you ask, and you cannot take it back: name nobody. Its
          tester or the operator can answer.
        </p>
      </div>
      <p>
        <button type="submit">Put the question</button>
      </p>
    </form>
  );
}
