import type { TrialView } from "../../views.ts";
import { AEROSOL_WORDS } from "../aerosol-words.ts";
import { INTEREST_WORDS } from "../figures.ts";
import { Complaint, KeyField, ReasonField, tied } from "../key-field.tsx";
import { InventedNote, Page } from "../page.tsx";
import type { Reader } from "../reader.ts";

/** What the form holds: what the record says, or what was sent last. */
export interface Amended {
  readonly interest: string;
  /** A kind; empty where none is stated. */
  readonly aerosol: string;
  readonly note: string;
  readonly reason: string;
}

export interface AmendmentView {
  readonly reader: Reader;
  readonly trial: TrialView;
  readonly filled: Amended;
  readonly complaints: Partial<Record<"key" | "reason" | "note" | "whole", string>>;
}

/** The form by which somebody puts right what they said of a test of theirs. */
export function AmendmentPage({ reader, trial, filled, complaints }: AmendmentView) {
  const name = [trial.configuration.title, trial.setting].filter(Boolean).join(", ");
  const back = `/trials/${trial.id}`;
  return (
    <Page reader={reader} title={`Put right test ${trial.id} · Motefall`}>
      <h1>Put right what was said of a test</h1>
      <p>
        <a href={back}>
          <bdi>{name}</bdi>: test {trial.id}
        </a>
      </p>
      {trial.invented && <InventedNote />}
      {trial.state === "withdrawn" ? (
        <p>It was withdrawn, which is for good.</p>
      ) : (
        <form class="written" action={`${back}/amendment`} method="post" enctype="multipart/form-data">
          <p>
            It becomes revision {trial.revision + 1}, with your reason. What it said before stays to be read, and
            whoever opens an address that was quoted sees what was corrected. The readings stay as they are.
          </p>
          <Complaint of="whole" words={complaints.whole} />
          <div class="fields">
            <Choice
              name="interest"
              label="Who paid"
              chosen={filled.interest}
              choices={Object.entries(INTEREST_WORDS)}
            />
            <Choice name="aerosol" label="Aerosol" chosen={filled.aerosol} choices={aerosolsFor(trial)} />
            <div class="field wide-field">
              <label for="note">Note</label>
              <textarea id="note" name="note" rows={4} {...tied("note", complaints.note)}>
                {filled.note}
              </textarea>
              <Complaint of="note" words={complaints.note} />
            </div>
            <KeyField wrong={complaints.key} />
            <ReasonField reason={filled.reason} wrong={complaints.reason} />
          </div>
          <p>
            <button class="first" type="submit">
              Put it right
            </button>
          </p>
        </form>
      )}
    </Page>
  );
}

/** None may be left as none; once stated, it stays stated. */
function aerosolsFor({ aerosol }: TrialView): [string, string][] {
  const kinds = Object.entries({ ...AEROSOL_WORDS, other: "something else" });
  return aerosol ? kinds : [["", "not stated"], ...kinds];
}

function Choice(it: { name: "interest" | "aerosol"; label: string; chosen: string; choices: [string, string][] }) {
  return (
    <div class="field wide-field">
      <label for={it.name}>{it.label}</label>
      <select id={it.name} name={it.name}>
        {it.choices.map(([value, words]) => (
          <option value={value} selected={value === it.chosen}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}
