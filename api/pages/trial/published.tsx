import type { TrialView } from "../../views.ts";

/** Said once, to somebody who just published: where the test stands and what the key is still for. */
export function Published({ trial }: { readonly trial: TrialView }) {
  return (
    <div class="published unprinted" role="status">
      <p>
        <strong>Published.</strong> It stands for good at <a href={`/trials/${trial.id}`}>{trial.page}</a>.
      </p>
      <p>
        Keep your key: without it you cannot amend or withdraw this test if something was mistyped, nor add others under
        your name. A key that is lost cannot be recovered.{" "}
        <a href={`/trials/${trial.id}/amendment`}>Put right what you said</a> or <Withdraw id={trial.id} />.
      </p>
    </div>
  );
}

/** The way to the form that withdraws a test. */
export function Withdraw({ id }: { readonly id: string }) {
  return <a href={`/trials/${id}/withdrawal`}>withdraw this test</a>;
}
