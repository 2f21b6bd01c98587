import { parseUnit } from "../../../analysis/units.ts";
import type { Place } from "../../read-places.ts";
import type { TrialView } from "../../views.ts";
import type { BandResultOut } from "../../wire/analysis.ts";
import { CleanerTitle, cleanerWords } from "../cleaner-name.tsx";
import { unitWords } from "../figures.ts";
import { InventedNote, Page } from "../page.tsx";
import { COPY_PATH } from "../quote/copy-script.ts";
import type { Quoted } from "../quote/quote-of.tsx";
import type { Reader } from "../reader.ts";
import { Budget } from "./budget.tsx";
import { Conditions } from "./conditions.tsx";
import { Decays } from "./decays.tsx";
import type { RunDrawing } from "./draw-runs.ts";
import { Findings, SeriousNote } from "./findings.tsx";
import { Headline } from "./headline.tsx";
import { History } from "./history.tsx";
import { Methods } from "./methods.tsx";
import { Noise } from "./noise.tsx";
import { Pending } from "./pending.tsx";
import { Published } from "./published.tsx";
import { type Asked, QuestionedNote, Questions } from "./questions.tsx";
import { Rates } from "./rates.tsx";
import { bandWords } from "./record-words.ts";
import { Refused } from "./refused.tsx";

interface Props {
  readonly reader: Reader;
  readonly trial: TrialView;
  readonly runs: readonly RunDrawing[];
  /** The band or channel that is drawn; null where there is none. */
  readonly drawn: BandResultOut["band"] | null;
  readonly choices: readonly BandResultOut["band"][];
  /** Whether its reader published it this moment. */
  readonly isNew: boolean;
  /** Where its entries stand in the list. */
  readonly places: readonly Place[];
  /** How to quote what is drawn; null where it has no rate. */
  readonly quoted: Quoted;
  readonly asked: Asked;
}

/** One trial: what it found, the decays drawn, what went into the uncertainty, the conditions and the raw data. */
export function TrialPage({ reader, trial, runs, drawn, choices, isNew, places, quoted, asked }: Props) {
  const { configuration, analysis } = trial;
  const name = cleanerWords(configuration.title, trial.setting);
  const result = analysis.results.find(({ band }) => band.name === drawn?.name);
  const told = analysis.results.filter((each) => each.band.kind === "standard" || each === result);
  const query = new URLSearchParams({
    setting: trial.setting,
    ...(drawn?.kind === "standard" ? { band: drawn.name } : {}),
  });
  const addressOf = (band: string) => `/trials/${trial.id}?channel=${encodeURIComponent(band)}#decays`;
  return (
    <Page
      reader={reader}
      title={`${name}: test ${trial.id} · Motefall`}
      script={quoted.quote ? COPY_PATH : null}
      head={quoted.head}
    >
      <article class="trial">
        <h1 class={trial.state === "withdrawn" ? "struck" : undefined}>
          <CleanerTitle title={configuration.title} setting={trial.setting} />: one test
        </h1>
        {isNew && trial.state !== "withdrawn" && <Published trial={trial} />}
        <p class="quiet unprinted">
          <a href={`/configurations/${configuration.id}?${query}`}>All tests of this cleaner</a>
        </p>
        {trial.invented && <InventedNote />}
        {trial.withdrawn ? (
          <p role="note" class="caution">
            Withdrawn on {trial.withdrawn.at.slice(0, 10)} by{" "}
            {trial.withdrawn.by === trial.submitter.id ? "its tester" : "the operator"}. It counts no more; what it said
            stays to be read. Why: <bdi>{trial.withdrawn.reason}</bdi>
          </p>
        ) : null}
        {trial.state === "pending" && <Pending doubts={trial.doubts} />}
        <QuestionedNote trial={trial} />
        <SeriousNote results={told} />
        <Headline reader={reader} trial={trial} drawn={drawn?.name ?? null} addressOf={addressOf} places={places} />
        <Findings
          reader={reader}
          several={analysis.results.length > 1}
          results={told}
          unitOf={(band) => levelUnit(band, runs)}
        />
        <Decays trial={trial} runs={runs} drawn={drawn} choices={choices} addressOf={addressOf} />
        {quoted.quote}
        <div class="sheet">
          {result && (
            <section>
              <h2>
                From decays to the rate, <bdi>{bandWords(result.band)}</bdi>
              </h2>
              <Rates result={result} level={levelUnit(result.band.name, runs)} />
              <p class="quiet unprinted">
                The plain line is the ordinary one through ln(reading − B), for comparison, until the readings have
                fallen to 5&nbsp;% of the highest. Its B is the clean air as it was read, or 0 where none was: with the
                fitted B it would come nearer. Its ± is twice the standard error it claims, which is too small: it takes
                neighbours for independent and B for exactly known.
              </p>
              <Budget result={result} reader={reader} />
            </section>
          )}
          <Conditions trial={trial} />
          <Refused {...trial} />
          <Noise {...trial} />
          <Methods trial={trial} reader={reader} />
          <History trial={trial} />
        </div>
        <Questions trial={trial} asked={asked} />
      </article>
    </Page>
  );
}

/** The unit that a band's readings are in: known where its channel is drawn, else by what it is. */
function levelUnit(band: string, runs: readonly RunDrawing[]): string {
  for (const { drawn } of runs) {
    const channel = drawn?.run.series.channels.find(({ id }) => band === `${drawn.run.counter}/${id}`);
    if (channel) return unitWords(channel.unit);
  }
  return unitWords(parseUnit(band === "mass" ? "ug/m3" : "1/cm3").code);
}
