import { AEROSOL_WORDS } from "../aerosol-words.ts";
import { BAND_CHOICES } from "../figures.ts";
import type { Asked } from "../form/asked.ts";
import {
  ChoiceField,
  ComplaintOf,
  CurrencyInput,
  Field,
  FigureField,
  FigureInput,
  TickField,
} from "../form/fields.tsx";
import { SizeFields } from "../form/size-fields.tsx";
import { KIND_WORDS } from "../kind-words.ts";
import { TARGET_DEFAULTS } from "./room-question.ts";

const SORT_WORDS = {
  noise: "quietest first",
  cost: "cheapest first",
  units: "fewest units first",
  power: "least power first",
  probability: "surest first",
  cadr: "most clean air first",
};

/** What is asked of a reader's own room. */
export function RoomForm({ asked, currency }: { readonly asked: Asked; readonly currency: string }) {
  return (
    <form method="get" action="/room" class="tool">
      <SizeFields asked={asked} />
      <TargetFields asked={asked} />
      <fieldset>
        <legend>What limits the choice</legend>
        <div class="fields pairs">
          <FigureField
            asked={asked}
            name="noise_max"
            label="Noise at your seat, at most, dB(A)"
            hint="The estimate is held against it; its interval is shown."
          />
          <FigureField
            asked={asked}
            name="distance"
            label="Distance from the seat to each unit"
            hint="In the unit chosen above. Blank: 1 m."
          />
          <FigureField asked={asked} name="budget" label="Price of the set, at most" />
          <Field asked={asked} name="currency" label="Currency of all amounts">
            <CurrencyInput asked={asked} name="currency" fallback={currency} />
          </Field>
        </div>
        <More asked={asked} />
      </fieldset>
      <p>
        <button type="submit" class="first">
          Find cleaners for this room
        </button>
      </p>
    </form>
  );
}

/** One of three targets, each a sentence with its figures in it. */
function TargetFields({ asked }: { readonly asked: Asked }) {
  const chosen = asked.texts.target ?? "air_changes";
  const figure = (name: keyof typeof TARGET_DEFAULTS, words: string) => (
    <FigureInput asked={asked} name={name} fallback={TARGET_DEFAULTS[name]} words={words} short />
  );
  return (
    <fieldset id="f-target" tabindex={-1}>
      <legend>What the air is to do</legend>
      <div class="target">
        <Pick value="air_changes" chosen={chosen} words="Be cleaned so often" />
        <span>
          clean air for {figure("air_changes", "Air changes an hour to add")} air changes an hour, beside what the room
          loses anyway
        </span>
        <ComplaintOf asked={asked} name="air_changes" />
      </div>
      <div class="target">
        <Pick value="clearance" chosen={chosen} words="Clear after the work" />
        <span>
          {figure("reduction", "Per cent that are to be gone")} {"\u00a0% gone"}{" "}
          {figure("minutes", "Minutes after the source stops")} minutes after the source stops
        </span>
        <ComplaintOf asked={asked} name="reduction" />
        <ComplaintOf asked={asked} name="minutes" />
      </div>
      <div class="target">
        <Pick value="ratio" chosen={chosen} words="Stay clearer while working" />
        <span>
          with a steady source, a level of {figure("ratio", "Per cent of the level without cleaners")}
          {"\u00a0% of that without a cleaner"}
        </span>
        <ComplaintOf asked={asked} name="ratio" />
      </div>
      <ComplaintOf asked={asked} name="target" />
    </fieldset>
  );
}

function Pick({ value, chosen, words }: { value: string; chosen: string; words: string }) {
  return (
    <label class="choice">
      <input id={`f-target-${value}`} type="radio" name="target" value={value} checked={chosen === value} />
      {words}
    </label>
  );
}

const MORE = ["price", "hours", "probability", "max_units", "band", "kind", "aerosol", "sort", "unpaired"];

/** What most readers leave as it is. */
function More({ asked }: { readonly asked: Asked }) {
  const open = asked.holds(MORE) || MORE.some((name) => asked.complaints[name] !== undefined);
  return (
    <details open={open}>
      <summary>More: running costs, certainty, particle size, kind, order</summary>
      <div class="fields">
        <FigureField asked={asked} name="price" label="Electricity, for a kWh" />
        <FigureField asked={asked} name="hours" label="Hours a day that it runs" hint="For what a year costs." />
        <FigureField
          asked={asked}
          name="probability"
          label={"How sure the target is to be reached, in\u00a0%"}
          fallback="90"
        />
        <FigureField asked={asked} name="max_units" label="Units, at most" fallback="10" />
        <ChoiceField asked={asked} name="band" label="Particle size" of={BAND_CHOICES} />
        <ChoiceField asked={asked} name="kind" label="Kind" of={KIND_WORDS} any="home-made and commercial" />
        <ChoiceField asked={asked} name="aerosol" label="Tested with" of={AEROSOL_WORDS} any="any aerosol" />
        <ChoiceField asked={asked} name="sort" label="Order" of={SORT_WORDS} />
      </div>
      <TickField asked={asked} name="unpaired" value="include" label="Use also what rests on a single unpaired test" />
    </details>
  );
}
