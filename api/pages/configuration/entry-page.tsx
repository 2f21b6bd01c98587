import type { DescribedEntry, Pooled } from "../../../db/entries.ts";
import type { QuantityOut } from "../../wire/quantity.ts";
import { bandPhrase, INTEREST_WORDS, plusMinus, range } from "../figures.ts";
import { InventedNote, Page } from "../page.tsx";
import type { Reader } from "../reader.ts";

export interface EntryTrial {
  readonly id: string;
  readonly state: string;
  readonly interest: string;
  readonly aerosol: string;
  readonly created_at: string;
  readonly cadr: QuantityOut | null;
}

interface Props {
  readonly reader: Reader;
  readonly entry: DescribedEntry;
  readonly pooled: Pooled | null;
  readonly cadr: QuantityOut | null;
  readonly cfm: QuantityOut | null;
  readonly trials: readonly EntryTrial[];
}

/** One configuration at one setting in one band: the pooled figure and the trials it is made of. */
export function EntryPage({ reader, entry, pooled, cadr, cfm, trials }: Props) {
  const name = [entry.title, entry.setting].filter(Boolean).join(", ");
  return (
    <Page reader={reader} title={`${name} · Motefall`}>
      <h1>{name}</h1>
      {entry.invented && <InventedNote />}
      {cadr && cfm ? (
        <>
          <p class="figure">{range(cadr)} m³/h</p>
          <p class="quiet">
            {range(cfm)} cfm. Clean air delivery rate for {bandPhrase(entry.band)}, pooled over {pooled?.trials} trials
            in {pooled?.rooms} rooms; in brackets the 95 % interval, which holds how much laboratories differ. A trial’s
            own interval (± below) is about its room and counter alone.
          </p>
        </>
      ) : (
        <p>No trial of it counts at present.</p>
      )}
      <h2>Trials</h2>
      <div class="scroll">
        <table>
          <thead>
            <tr>
              <th>Trial</th>
              <th class="number">CADR, m³/h</th>
              <th>Aerosol</th>
              <th>Who paid</th>
              <th>Stored</th>
              <th>State</th>
            </tr>
          </thead>
          <tbody>
            {trials.map((trial) => (
              <tr>
                <td class={trial.state === "withdrawn" ? "struck" : undefined}>
                  <a href={`/trials/${trial.id}`}>{trial.id}</a>
                </td>
                <td class="number">{trial.cadr ? plusMinus(trial.cadr) : "–"}</td>
                <td>{trial.aerosol.replaceAll("_", " ")}</td>
                <td>{INTEREST_WORDS[trial.interest]}</td>
                <td>{trial.created_at.slice(0, 10)}</td>
                <td>{trial.state}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="quiet">
        As data: <a href={`/v1/entries/${entry.id}`}>/v1/entries/{entry.id}</a>
      </p>
    </Page>
  );
}
