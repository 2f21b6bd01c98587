import { readDoubt } from "../../doubt/rules.ts";
import { pinOfResult } from "../../pins/current-pin.ts";
import { pinPath } from "../../pins/pin.ts";
import type { TrialView } from "../../views.ts";
import type { Revision } from "../../wire/revisions.ts";
import { aerosolWords } from "../aerosol-words.ts";
import { BAND_WORDS, INTEREST_WORDS, instant } from "../figures.ts";
import { wordsOf } from "./conditions.tsx";
import { Withdraw } from "./published.tsx";
import { ACTOR_WORDS, bandWords, EVENT_WORDS, FIELD_WORDS, STATE_WORDS } from "./record-words.ts";

/** Where the readings are, and what happened to the record. */
export function History({ trial }: { trial: TrialView }) {
  const { id, history, submitter } = trial;
  return (
    <section class="history">
      <h2>Readings and history</h2>
      <ul class="unprinted">
        {trial.runs.map((run) => (
          <li>
            Log {run.n + 1}
            {run.performed_at && `, begun ${instant(new Date(run.performed_at).toISOString())}`}:{" "}
            <a href={`/v1/trials/${id}/runs/${run.n}/series.csv`}>readings as CSV</a>
            {run.file_url && (
              <>
                , <a href={`/v1/trials/${id}/runs/${run.n}/file`}>the file as it was sent</a> ({wordsOf(run.file?.name)}
                )
              </>
            )}
          </li>
        ))}
        <li>
          All of it as data: <a href={`/v1/trials/${id}`}>/v1/trials/{id}</a>. How to analyse it again with other
          windows: <a href="/programs">For programs</a>.
        </li>
      </ul>
      <p>{STATE_WORDS[trial.state]}</p>
      <ul class="events">
        {history.map(({ at, kind, actor, reason }, i) => (
          <li>
            {instant(at)}: {EVENT_WORDS[kind] ?? kind.replaceAll("-", " ")} by{" "}
            {actor === submitter.id ? "its tester" : (ACTOR_WORDS[actor] ?? <bdi>{actor}</bdi>)}
            <Why kind={kind} reason={reason} />
            {kind === "trial-amended" && (
              <Amended trial={trial} nth={history.slice(0, i).filter((one) => one.kind === kind).length} />
            )}
          </li>
        ))}
      </ul>
      {trial.state !== "withdrawn" && (
        <p class="unprinted">
          Yours, and wrong? <a href={`/trials/${id}/amendment`}>Put right</a> who paid, the aerosol or the note, or{" "}
          <Withdraw id={id} />, with the key that you published it with. Conditions, marks and windows can be{" "}
          <a href="/programs#rules">amended by a program</a>.
        </p>
      )}
      <Addresses trial={trial} />
      <p class="quiet">
        Revision {trial.revision}, SHA-256 {trial.sha256.slice(0, 16)}…, method {trial.analysis.method_version}
      </p>
    </section>
  );
}

/** What an amendment changed, and where the figures of the revision before it stand. */
function Amended({ trial: { id, revisions }, nth }: { readonly trial: TrialView; readonly nth: number }) {
  const [before, now] = [revisions[nth], revisions[nth + 1]];
  if (!before || !now) return null;
  return (
    <p class="quiet">
      Revision {now.revision} changed {now.changed.map((field) => changeWords(field, before, now)).join("; ")}. What
      revision {before.revision} gave:{" "}
      {before.results
        .filter(({ band }, _, all) => band in BAND_WORDS || all.every((one) => !(one.band in BAND_WORDS)))
        .map(({ band, page }, i) => (
          <>
            {i > 0 && ", "}
            <a href={page.slice(page.indexOf("/pinned/"))}>
              <bdi>{BAND_WORDS[band] ?? band}</bdi>
            </a>
          </>
        ))}
      ; as data: <a href={`/v1/trials/${id}/revisions`}>all revisions</a>.
    </p>
  );
}

function changeWords(field: string, before: Revision, now: Revision): string {
  if (field === "interest") return `who paid, from “${paid(before)}” to “${paid(now)}”`;
  if (field === "aerosol" && before.aerosol !== now.aerosol) {
    return `the aerosol, from “${aerosolWords(before.aerosol, true)}” to “${aerosolWords(now.aerosol, true)}”`;
  }
  return FIELD_WORDS[field] ?? field.replaceAll("_", " ");
}

function paid({ interest }: Revision): string {
  return INTEREST_WORDS[interest] ?? interest;
}

/** A person's reason as it was written; a rule's in words. Of a question the log has only which one it is. */
function Why({ kind, reason }: Pick<TrialView["history"][number], "kind" | "reason">) {
  if (reason === null) return null;
  if (kind === "trial-questioned" || kind === "question-answered") {
    return (
      <>
        : <a href={`#${reason}`}>{reason}</a>
      </>
    );
  }
  return (
    <>
      : <bdi>{kind === "trial-doubted" ? (readDoubt(reason)?.message ?? reason) : reason}</bdi>
    </>
  );
}

/** Where each figure stands for good: what to quote instead of this page, which changes with the record. */
function Addresses({ trial: { analysis, id, revision, page, state } }: { readonly trial: TrialView }) {
  const origin = page.slice(0, page.indexOf("/trials/"));
  const bands = analysis.results.filter(({ band }) => band.kind === "standard");
  const quoted = bands.length > 0 ? bands : analysis.results.slice(0, 3);
  if (quoted.length === 0) return null;
  return (
    <>
      <p>{state === "withdrawn" ? "Addresses" : "Addresses to quote"}, whose figures never change:</p>
      <ul>
        {quoted.map(({ band }) => {
          const path = pinPath(pinOfResult(id, revision, analysis, band.name)!);
          return (
            <li>
              <bdi>{bandWords(band)}</bdi>:{" "}
              <a href={path}>
                {origin}
                {path}
              </a>
            </li>
          );
        })}
      </ul>
    </>
  );
}
