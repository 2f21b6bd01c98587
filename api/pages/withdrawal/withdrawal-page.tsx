import type { TrialView } from "../../views.ts";
import { KeyField, ReasonField } from "../key-field.tsx";
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
            mistyped and publish it again as another test; who paid, the aerosol and the note can be{" "}
            <a href={`${back}/amendment`}>put right here</a>, conditions, marks and windows{" "}
            <a href="/programs#rules">by a program</a>, without that.
          </p>
          <div class="fields">
            <KeyField wrong={complaints.key} />
            <ReasonField reason={reason} wrong={complaints.reason} />
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
