import type { TestPlanOut } from "../../wire/test-plan.ts";
import { BudgetBars } from "../charts/budget-bars.tsx";
import type { Asked } from "../form/asked.ts";
import { basisWords } from "../form/size-asked.ts";
import { SIZE_NAMES } from "../form/size-fields.tsx";
import { WrongFields } from "../form/wrong-fields.tsx";
import { Page } from "../page.tsx";
import type { Reader } from "../reader.ts";
import { DayOfTheTest } from "./day-of-the-test.tsx";
import { PART_WORDS } from "./part-words.ts";
import { PlanForm } from "./plan-form.tsx";
import { PLAN_DEFAULTS } from "./plan-question.ts";
import { PlannedTest } from "./planned-test.tsx";

interface Props {
  readonly reader: Reader;
  readonly asked: Asked;
  /** Null where nothing is asked yet, or something is wrong. */
  readonly answer: { readonly body: object; readonly plan: TestPlanOut } | null;
}

/** How long to log, with how much aerosol, what to expect of it, and the day of the test step by step. */
export function PlanPage({ reader, asked, answer }: Props) {
  return (
    <Page reader={reader} title="Plan a test · Motefall">
      <h1>Plan a test</h1>
      <p>
        A decay test fills a room with some aerosol and logs how it clears, once with the cleaner off (natural decay)
        and once with it on (total decay). Say what you have, and see how long to log and how well the rate will be
        known, before you spend an afternoon on it.
      </p>
      {!answer && (
        <p class="caution">
          What makes an aerosol can burn, choke or shock: the plan lists what to mind before anything smokes, and so
          does <a href="/safety">Safety</a>.
        </p>
      )}
      <WrongFields asked={asked} names={NAMES} lead="Nothing is worked out yet, because of this:" />
      {answer && (
        <>
          <PlannedTest plan={answer.plan} reader={reader} volumeBasis={basisWords(asked)} />
          <BudgetBars
            caption="What the expected uncertainty is made of"
            budget={answer.plan.budget}
            wordsOf={(source) => PART_WORDS[source] ?? source}
            flow={reader.flow}
          />
          <h2>Before anything smokes</h2>
          <div class="caution">
            <ul>
              {answer.plan.cautions.map((words) => (
                <li>{words}</li>
              ))}
            </ul>
            <p>
              <a href="/safety">All of it</a>
            </p>
          </div>
          <DayOfTheTest plan={answer.plan} interval={asked.texts.interval ?? PLAN_DEFAULTS.interval} />
          <details class="unprinted">
            <summary>The same plan as data</summary>
            <p>
              Send this by POST to <code>/v1/test-plans</code>; uncertainties are standard ones there.
            </p>
            <pre tabindex={0}>{JSON.stringify(answer.body, null, 2)}</pre>
          </details>
          <h2 class="unprinted">Plan otherwise</h2>
        </>
      )}
      <PlanForm asked={asked} reader={reader} />
    </Page>
  );
}

const NAMES = {
  ...SIZE_NAMES,
  cadr: "Rate that you expect",
  cadr_in: "Unit of the rate",
  wanted: "Wanted",
  wanted_in: "What the ± is in",
  interval: "Seconds between readings",
  principle: "How the counter works",
  white: "Scatter",
  memory: "Slow wander",
  memory_time: "How long the wander lasts",
  counts: "Particles a reading of clean air counts",
  sample_flow: "Sample flow",
  max_concentration: "Most it can count",
  smoothing: "Smoothing",
  smoothing_time: "Seconds of smoothing",
  background: "Clean air there",
};
