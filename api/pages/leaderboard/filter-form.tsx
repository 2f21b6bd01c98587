import { AEROSOL_WORDS } from "../aerosol-words.ts";
import { BASIS_WORDS, PAIRED_WORDS } from "../basis-words.ts";
import { BAND_WORDS } from "../figures.ts";
import { ChoiceField, CurrencyInput, Field, FigureField, FigureInput, TickField } from "../form/fields.tsx";
import { KIND_WORDS } from "../kind-words.ts";
import { SORT_WORDS } from "./filter-words.ts";
import { isFiltered, pageAddress } from "./list-address.ts";
import type { Question } from "./question.ts";

/** What may be asked of the list. On a phone it is folded away until something is set. */
export function FilterForm({ question }: { readonly question: Question }) {
  const { texts, complaints } = question;
  const open = isFiltered(texts) || Object.keys(complaints).length > 0;
  const asked = question;
  return (
    <details class="filters" open={open}>
      <summary>Choose: noise, price, power, kind, tests, order</summary>
      <form method="get" action="/">
        {KEPT.map((name) =>
          texts[name] === undefined ? null : <input type="hidden" name={name} value={texts[name]} />,
        )}
        <div class="fields">
          <ChoiceField asked={asked} name="band" label="Particle size" of={BAND_WORDS} />
          <FigureField asked={asked} name="noise_max" label="Noise at 1 m, at most, dB(A)" />
          <Cost asked={asked} />
          <FigureField asked={asked} name="power_max" label="Power, at most, W" />
          <ChoiceField asked={asked} name="kind" label="Kind" of={KIND_WORDS} any="any kind" />
          <ChoiceField asked={asked} name="basis" label="Tests that count" of={BASIS_WORDS} />
          <ChoiceField asked={asked} name="aerosol" label="Tested with" of={AEROSOL_WORDS} any="any aerosol" />
          <FigureField asked={asked} name="min_rooms" label="Tested in at least, rooms" mode="numeric" />
          <ChoiceField asked={asked} name="sort" label="Order" of={SORT_WORDS} />
        </div>
        <div class="last">
          <TickField
            asked={asked}
            name="unpaired"
            value="include"
            label="Show also what rests on a single unpaired test"
          />
          <TickField
            asked={asked}
            name="invented"
            value="exclude"
            label="Leave out what is invented for demonstration"
          />
          <button type="submit" class="first">
            Show these
          </button>
          {open && <a href={pageAddress(texts.band ? { band: texts.band } : {})}>No filter</a>}
        </div>
        <p class="hint">Independent: bought or built by the tester. Paired: {PAIRED_WORDS}.</p>
      </form>
    </details>
  );
}

/** Set by links, not by the form: it passes them on. */
const KEPT = ["as_of", "limit"];

/** A price, and the currency it is in. */
function Cost({ asked }: { readonly asked: Question }) {
  return (
    <Field asked={asked} name="cost_max" label="Price, at most" beside="currency">
      <span class="with-unit">
        <FigureInput asked={asked} name="cost_max" />
        <CurrencyInput
          asked={asked}
          name="currency"
          class="code-of-money"
          words="Currency of the price, three letters"
          placeholder="EUR"
        />
      </span>
    </Field>
  );
}
