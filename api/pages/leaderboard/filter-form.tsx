import type { Child } from "hono/jsx";
import { BAND_WORDS } from "../figures.ts";
import { AEROSOL_WORDS, BASIS_WORDS, KIND_WORDS, SORT_WORDS } from "./filter-words.ts";
import { isFiltered, pageAddress } from "./list-address.ts";
import type { Question } from "./question.ts";

/** What may be asked of the list. On a phone it is folded away until something is set. */
export function FilterForm({ question }: { readonly question: Question }) {
  const { texts, complaints } = question;
  const open = isFiltered(texts) || Object.keys(complaints).length > 0;
  const field = { texts, complaints };
  return (
    <details class="filters" open={open}>
      <summary>Choose: noise, price, power, kind, tests, order</summary>
      <form method="get" action="/">
        {Object.entries(KEPT).map(([name]) =>
          texts[name] === undefined ? null : <input type="hidden" name={name} value={texts[name]} />,
        )}
        <div class="fields">
          <Choice {...field} name="band" label="Particle size" of={BAND_WORDS} />
          <Figure {...field} name="noise_max" label="Noise at 1 m, at most" unit="dB(A)" />
          <Cost {...field} />
          <Figure {...field} name="power_max" label="Power, at most" unit="W" />
          <Choice {...field} name="kind" label="Kind" of={KIND_WORDS} any="any kind" />
          <Choice {...field} name="basis" label="Tests that count" of={BASIS_WORDS} />
          <Choice {...field} name="aerosol" label="Tested with" of={AEROSOL_WORDS} any="any aerosol" />
          <Figure {...field} name="min_rooms" label="Tested in at least" unit="rooms" mode="numeric" />
          <Choice {...field} name="sort" label="Order" of={SORT_WORDS} />
        </div>
        <div class="last">
          <Tick {...field} name="unpaired" value="include" label="Show also what rests on a single unpaired test" />
          <Tick {...field} name="invented" value="exclude" label="Leave out what is invented for demonstration" />
          <button type="submit" class="first">
            Show these
          </button>
          {open && <a href={pageAddress(texts.band ? { band: texts.band } : {})}>No filter</a>}
        </div>
        <p class="hint">
          Independent: bought or built by the tester. Paired: natural loss and cleaner were measured in the same room on
          the same day.
        </p>
      </form>
    </details>
  );
}

/** Set by links, not by the form: it passes them on. */
const KEPT = { as_of: true, limit: true };

interface FieldProps {
  readonly texts: Question["texts"];
  readonly complaints: Question["complaints"];
  readonly name: string;
  readonly label: string;
}

function Choice({
  texts,
  name,
  label,
  complaints,
  of,
  any,
}: FieldProps & { of: Record<string, string>; any?: string }) {
  return (
    <Field name={name} label={label} complaints={complaints}>
      <select id={`f-${name}`} name={name} {...told(name, complaints)}>
        {any && <option value="">{any}</option>}
        {Object.entries(of).map(([value, words]) => (
          <option value={value} selected={texts[name] === value}>
            {words}
          </option>
        ))}
      </select>
    </Field>
  );
}

function Figure(it: FieldProps & { readonly unit: string; readonly mode?: "numeric" }) {
  const { texts, name, label, complaints, unit, mode } = it;
  return (
    <Field name={name} label={`${label}, ${unit}`} complaints={complaints}>
      <input
        id={`f-${name}`}
        name={name}
        value={texts[name]}
        inputmode={mode ?? "decimal"}
        autocomplete="off"
        {...told(name, complaints)}
      />
    </Field>
  );
}

function Cost({ texts, complaints }: Pick<FieldProps, "texts" | "complaints">) {
  return (
    <Field name="cost_max" label="Price, at most" complaints={complaints} also="currency">
      <span class="with-unit">
        <input
          id="f-cost_max"
          name="cost_max"
          value={texts.cost_max}
          inputmode="decimal"
          autocomplete="off"
          {...told("cost_max", complaints)}
        />
        <input
          id="f-currency"
          class="code-of-money"
          name="currency"
          value={texts.currency}
          aria-label="Currency of the price, three letters"
          placeholder="EUR"
          maxlength={3}
          autocapitalize="characters"
          autocomplete="off"
          spellcheck={false}
          {...told("currency", complaints)}
        />
      </span>
    </Field>
  );
}

function Field(it: Pick<FieldProps, "name" | "label" | "complaints"> & { also?: string; children: Child }) {
  const names = [it.name, ...(it.also ? [it.also] : [])];
  return (
    <div class="field">
      <label for={`f-${it.name}`}>{it.label}</label>
      {it.children}
      {names.map((name) =>
        it.complaints[name] ? (
          <p class="error" id={`f-${name}-error`}>
            {it.complaints[name]}
          </p>
        ) : null,
      )}
    </div>
  );
}

function Tick({ texts, name, label, value, complaints }: FieldProps & { readonly value: string }) {
  return (
    <div>
      <label class="choice">
        <input
          id={`f-${name}`}
          type="checkbox"
          name={name}
          value={value}
          checked={texts[name] === value}
          {...told(name, complaints)}
        />
        {label}
      </label>
      {complaints[name] && (
        <p class="error" id={`f-${name}-error`}>
          {complaints[name]}
        </p>
      )}
    </div>
  );
}

/** Ties a control to the complaint about it. */
function told(name: string, complaints: Question["complaints"]) {
  return complaints[name] ? { "aria-invalid": "true" as const, "aria-describedby": `f-${name}-error` } : {};
}
