import type { EntryOut } from "../../wire/entry.ts";
import { aerosolWords } from "../aerosol-words.ts";
import { AS_TABLE } from "../as-table.ts";
import { PAIRED_WORDS } from "../basis-words.ts";
import { counted } from "../counts.ts";
import { INTEREST_WORDS } from "../figures.ts";
import { Quantity } from "../quantity.tsx";

type Trial = EntryOut["trials"][number];

const MOST = 100;

/** The tests of an entry, newest first: what each found by itself, and whether it counts. */
export function TrialList({ entry }: { readonly entry: EntryOut }) {
  const known = entry.trials.filter(({ cadr }) => cadr !== null);
  const silent = entry.trials.filter(({ cadr }) => cadr === null);
  const shown = known.slice(0, MOST);
  const labels = new Map(entry.by_room.map((room) => [room.room.id, room]));
  return (
    <>
      <h3 id="tests">Tests</h3>
      {known.length > 0 && (
        <table class="stacks" {...AS_TABLE.table}>
          <caption>
            What each found in its room by its counter, ± the 95&nbsp;% interval of that alone. Paired: {PAIRED_WORDS}
          </caption>
          <thead>
            <tr {...AS_TABLE.row}>
              <th {...AS_TABLE.head}>Test</th>
              <th {...AS_TABLE.head}>Clean air</th>
              <th {...AS_TABLE.head}>Aerosol, natural loss</th>
              <th {...AS_TABLE.head}>Who paid</th>
              <th {...AS_TABLE.head}>Tester</th>
              <th {...AS_TABLE.head}>State</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((trial) => (
              <Row trial={trial} isOld={isBeforeCorrection(trial, labels.get(trial.room))} />
            ))}
          </tbody>
        </table>
      )}
      {known.length > MOST && <p>{`The newest ${MOST} of ${known.length} are listed; the data hold all.`}</p>}
      {silent.length > 0 && (
        <p>
          {counted(silent.length, "further test")} of this setting gave no rate of these particles:{" "}
          {silent.slice(0, MOST).map((trial, i) => (
            <>
              {i > 0 && ", "}
              <a href={`/trials/${trial.id}`}>{trial.id}</a>
            </>
          ))}
          .
        </p>
      )}
    </>
  );
}

function Row({ trial, isOld }: { readonly trial: Trial; readonly isOld: boolean }) {
  const struck = trial.state === "withdrawn" ? "struck" : undefined;
  return (
    <tr {...AS_TABLE.row}>
      <th {...AS_TABLE.rowHead}>
        <a class={struck} href={`/trials/${trial.id}`}>
          {trial.id}
        </a>{" "}
        <small class="date">of {trial.performed_at.slice(0, 10)}</small>
      </th>
      <td {...AS_TABLE.cell} data-head="Clean air">
        <span class={struck}>
          <Quantity of={trial.cadr} />
        </span>
        {isOld && <small> with the volume before its correction</small>}
      </td>
      <td {...AS_TABLE.cell} data-head="Aerosol, natural loss">
        {aerosolWords(trial.aerosol, trial.aerosol_stated) ?? "aerosol not stated"},{" "}
        {trial.paired ? "paired" : "unpaired"}
      </td>
      <td {...AS_TABLE.cell} data-head="Who paid">
        {INTEREST_WORDS[trial.interest] ?? trial.interest}
      </td>
      <td {...AS_TABLE.cell} data-head="Tester">
        <bdi>{trial.submitter.handle ?? trial.submitter.id}</bdi>
      </td>
      <td {...AS_TABLE.cell} data-head="State">
        {STATE_WORDS[trial.state] ?? trial.state}
        {trial.serious && (
          <>
            {"; "}
            <a href={`/trials/${trial.id}#findings`}>serious finding</a>
          </>
        )}
      </td>
    </tr>
  );
}

const STATE_WORDS: Readonly<Record<string, string>> = {
  listed: "counts",
  questioned: "questioned, counts",
  pending: "to be checked, does not count yet",
  withdrawn: "withdrawn, does not count",
};

function isBeforeCorrection(trial: Trial, room: EntryOut["by_room"][number] | undefined): boolean {
  return room?.corrected != null && String(trial.created_at) < room.corrected.at;
}
