import { type Filled, SectionLegend, TextField, TickField } from "./field.tsx";

/** The key, the licence and the last button. `isNewKey`: it was made by this very request and is shown this once. */
export function PublishFields({ filled, isNewKey }: { filled: Filled; isNewKey: boolean }) {
  return (
    <fieldset>
      <SectionLegend>Publish</SectionLegend>
      <p>
        Whoever holds your key can amend and withdraw your tests. There is no e-mail and no account: a key that is lost
        cannot be recovered. Your tests then stay as they are, and nobody can withdraw them in your name.
      </p>
      {isNewKey && (
        <p class="new-key" role="status">
          This is your new key, shown this once. Copy it to where you keep passwords before you go on:{" "}
          <code>{filled.fields.get("key")}</code>
        </p>
      )}
      <div class="fields">
        <TextField name="key" filled={filled} wide hint="mote_…, from an earlier test or made here." />
        <TextField
          name="handle"
          most={60}
          wide
          filled={filled}
          hint="May be left blank. It goes with a new key, for good."
          unit={
            <button type="submit" name="do" value="key" formaction="/submit#f-key">
              Make a new key
            </button>
          }
        />
        <TickField
          name="consent"
          filled={filled}
          label="I publish this test and its log under CC0 1.0: anybody may use it for anything, for good."
        />
      </div>
      <p>
        <button class="first" type="submit" name="do" value="publish">
          Publish the test
        </button>
      </p>
    </fieldset>
  );
}
