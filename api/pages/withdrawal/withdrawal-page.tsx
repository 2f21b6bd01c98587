import type { TrialView } from "../../views.ts";
import { InventedNote, Page } from "../page.tsx";
import type { Reader } from "../reader.ts";

export interface WithdrawalView {
  readonly reader: Reader;
  readonly trial: TrialView;
  readonly reason: string;
  readonly complaints: { readonly key?: string; readonly reason?: string };
}

/** The form by which somebody takes back a test of theirs. The key is never filled in again. */
export function WithdrawalPage({ reader, trial, reason, complaints }: WithdrawalView) {
  const name = [trial.configuration.title, trial.setting].filter(Boolean).join(", ");
  const back = `/trials/${trial.id}`;
  return (
    <Page reader={reader} title={`Withdraw test ${trial.id} · Motefall`}>
      <h1>Withdraw a test</h1>
      <p>
        <a href={back}>
          <bdi>{name}</bdi>: test {trial.id}
        </a>
      </p>
      {trial.invented && <InventedNote />}
      {trial.state === "withdrawn" ? (
        <p>It was withdrawn and counts no more.</p>
      ) : (
        <form class="written" action={`${back}/withdrawal`} method="post" enctype="multipart/form-data">
          <p>
            It then counts no more, for good. Its page stays, struck through, with your reason. Put right what was
            mistyped and publish it again as another test; who paid, conditions, marks and windows can be{" "}
            <a href="/programs#rules">amended by a program</a> without that.
          </p>
          <div class="fields">
            <div class="field wide-field">
              <label for="key">The key that it was published with</label>
              <input
                id="key"
                name="key"
                type="text"
                autocomplete="off"
                spellcheck={false}
                {...tied("key", complaints.key)}
              />
              <Complaint of="key" words={complaints.key} />
            </div>
            <div class="field wide-field">
              <label for="reason">Why, for readers to see</label>
              <input
                id="reason"
                name="reason"
                type="text"
                maxlength={1000}
                value={reason}
                {...tied("reason", complaints.reason)}
              />
              <Complaint of="reason" words={complaints.reason} />
            </div>
          </div>
          <p>
            <button class="first" type="submit">
              Withdraw it for good
            </button>
          </p>
        </form>
      )}
    </Page>
  );
}

function tied(id: string, words: string | undefined) {
  return words === undefined ? {} : { "aria-invalid": "true" as const, "aria-describedby": `${id}-error` };
}

function Complaint({ of, words }: { readonly of: string; readonly words: string | undefined }) {
  if (words === undefined) return null;
  return (
    <p class="error" id={`${of}-error`}>
      <bdi>{words}</bdi>
    </p>
  );
}
