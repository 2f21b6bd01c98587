import type { TrialView } from "../../views.ts";
import { Complaint, KeyField, tied } from "../key-field.tsx";
import { InventedNote, Page } from "../page.tsx";
import type { Reader } from "../reader.ts";

export interface AnswerView {
  readonly reader: Reader;
  readonly trial: TrialView;
  readonly question: TrialView["questions"][number];
  readonly text: string;
  readonly complaints: { readonly key?: string; readonly answer?: string };
}

/** The form by which a tester answers a question put to a test of theirs. */
export function AnswerPage({ reader, trial, question, text, complaints }: AnswerView) {
  const name = [trial.configuration.title, trial.setting].filter(Boolean).join(", ");
  return (
    <Page reader={reader} title={`Answer a question to test ${trial.id} · Motefall`}>
      <h1>Answer a question</h1>
      <p>
        <a href={`/trials/${trial.id}#${question.id}`}>
          <bdi>{name}</bdi>: test {trial.id}
        </a>
      </p>
      {trial.invented && <InventedNote />}
      <p class="words">
        {question.question === null ? "The words of the question were erased." : <bdi>{question.question}</bdi>}
      </p>
      <form class="written" action={`/questions/${question.id}/answer`} method="post" enctype="multipart/form-data">
        <div class="fields">
          <div class="field wide-field">
            <label for="answer">Your answer, for everybody to read</label>
            <textarea id="answer" name="answer" rows={4} {...tied("answer", complaints.answer)}>
              {text}
            </textarea>
            <Complaint of="answer" words={complaints.answer} />
          </div>
          <KeyField wrong={complaints.key} />
        </div>
        <p>
          <button class="first" type="submit">
            Answer
          </button>
        </p>
      </form>
    </Page>
  );
}
