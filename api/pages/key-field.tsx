/** The field for the key that a test was published with. It is never filled in again. */
export function KeyField({ wrong, id = "key" }: { readonly wrong: string | undefined; readonly id?: string }) {
  return (
    <div class="field wide-field">
      <label for={id}>The key that it was published with</label>
      <input id={id} name="key" type="text" autocomplete="off" spellcheck={false} {...tied(id, wrong)} />
      <Complaint of={id} words={wrong} />
    </div>
  );
}

/** The field for a reason that readers see. */
export function ReasonField({ reason, wrong }: { readonly reason: string; readonly wrong: string | undefined }) {
  return (
    <div class="field wide-field">
      <label for="reason">Why, for readers to see</label>
      <input id="reason" name="reason" type="text" maxlength={1000} value={reason} {...tied("reason", wrong)} />
      <Complaint of="reason" words={wrong} />
    </div>
  );
}

/** Ties a control to what is wrong with it. */
export function tied(id: string, words: string | undefined) {
  return words === undefined ? {} : { "aria-invalid": "true" as const, "aria-describedby": `${id}-error` };
}

/** What is wrong with a control, under it. */
export function Complaint({ of, words }: { readonly of: string; readonly words: string | undefined }) {
  if (words === undefined) return null;
  return (
    <p class="error" id={`${of}-error`}>
      <bdi>{words}</bdi>
    </p>
  );
}
