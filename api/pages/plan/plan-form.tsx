import type { Asked } from "../form/asked.ts";
import { ChoiceField, ChoiceInput, Field, FigureField, FigureInput } from "../form/fields.tsx";
import { SizeFields } from "../form/size-fields.tsx";
import type { Reader } from "../reader.ts";
import { FLOW_CHOICES, PLAN_DEFAULTS, PRINCIPLE_WORDS, SMOOTHING_WORDS } from "./plan-question.ts";

/** What is asked before a test is made. */
export function PlanForm({ asked, reader }: { readonly asked: Asked; readonly reader: Reader }) {
  return (
    <form method="get" action="/plan" class="tool">
      <SizeFields asked={asked} />
      <fieldset>
        <legend>The cleaner, and how well it is to be known</legend>
        <div class="fields">
          <Beside
            asked={asked}
            name="cadr"
            label="Clean air delivery rate that you expect"
            unit="cadr_in"
            of={FLOW_CHOICES}
            chosen={reader.flow === "m3/h" ? "m3/h" : "cfm"}
            words="Unit of the rate"
            hint="A guess: what a cleaner like it is listed with."
          />
          <Beside
            asked={asked}
            name="wanted"
            label="Wanted: right within ±"
            fallback={PLAN_DEFAULTS.wanted}
            unit="wanted_in"
            of={{ percent: "\u00a0% of the rate", flow: "in the rate’s unit" }}
            chosen="percent"
            words="What the ± is in"
            hint={"In 19 of 20 cases (95\u00a0%). Under 5\u00a0% is hard: the room’s volume is seldom known so well."}
          />
        </div>
      </fieldset>
      <fieldset>
        <legend>The counter</legend>
        <div class="fields">
          <FigureField
            asked={asked}
            name="interval"
            label="One reading every, seconds"
            fallback={PLAN_DEFAULTS.interval}
          />
          <ChoiceField
            asked={asked}
            name="principle"
            label="How it works"
            of={PRINCIPLE_WORDS}
            fallback={PLAN_DEFAULTS.principle}
          />
          <FigureField
            asked={asked}
            name="background"
            label="Clean air there, particles per cm³"
            hint="If known: it bounds how much smoke is too much."
          />
        </div>
        <CounterDetails asked={asked} />
      </fieldset>
      <p>
        <button type="submit" class="first">
          Plan the test
        </button>
      </p>
    </form>
  );
}

const DETAILS = [
  "white",
  "memory",
  "memory_time",
  "counts",
  "sample_flow",
  "max_concentration",
  "smoothing",
  "smoothing_time",
];

function CounterDetails({ asked }: { readonly asked: Asked }) {
  const open = asked.holds(DETAILS) || DETAILS.some((name) => asked.complaints[name] !== undefined);
  return (
    <details open={open}>
      <summary>What is known of the counter’s noise; else what is common for its kind is taken</summary>
      <div class="fields">
        <FigureField
          asked={asked}
          name="white"
          label={"Scatter from one reading to the next, in\u00a0%"}
          hint="Standard deviation, counting left aside."
        />
        <FigureField asked={asked} name="memory" label={"Slow wander, in\u00a0%"} hint="Standard deviation." />
        <FigureField asked={asked} name="memory_time" label="How long the wander lasts, s" />
        <FigureField asked={asked} name="counts" label="Particles one reading of clean air counts" />
        <FigureField asked={asked} name="sample_flow" label="Sample flow, L/min" />
        <FigureField
          asked={asked}
          name="max_concentration"
          label="Most it can count, per cm³"
          hint="From its data sheet."
        />
        <ChoiceField asked={asked} name="smoothing" label="Smoothing" of={SMOOTHING_WORDS} any="none, or not known" />
        <FigureField asked={asked} name="smoothing_time" label="of so many seconds" />
      </div>
    </details>
  );
}

interface BesideProps {
  readonly asked: Asked;
  readonly name: string;
  readonly label: string;
  readonly hint: string;
  readonly fallback?: string;
  readonly unit: string;
  readonly of: Readonly<Record<string, string>>;
  readonly chosen: string;
  readonly words: string;
}

/** A number with its unit to choose beside it. */
function Beside({ asked, name, label, hint, fallback, unit, of, chosen, words }: BesideProps) {
  return (
    <Field asked={asked} name={name} label={label} hint={hint} beside={unit}>
      <span class="with-unit">
        <FigureInput asked={asked} name={name} fallback={fallback} hinted />
        <ChoiceInput asked={asked} name={unit} of={of} fallback={chosen} words={words} />
      </span>
    </Field>
  );
}
