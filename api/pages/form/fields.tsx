import type { Child } from "hono/jsx";
import type { Asked } from "./asked.ts";

interface FieldProps {
  readonly asked: Asked;
  readonly name: string;
  readonly label: Child;
  readonly hint?: Child;
}

/** Ties a control to its hint and to the complaint about it. */
export function told(asked: Asked, name: string, hint = false) {
  const described = [hint ? `f-${name}-hint` : "", asked.complaints[name] ? `f-${name}-error` : ""];
  const ids = described.filter(Boolean).join(" ");
  return {
    ...(ids ? { "aria-describedby": ids } : {}),
    ...(asked.complaints[name] ? { "aria-invalid": "true" as const } : {}),
  };
}

/** A control under its label, over its hint and what is wrong with it. */
function Field({ asked, name, label, hint, children }: FieldProps & { readonly children: Child }) {
  return (
    <div class="field">
      <label for={`f-${name}`}>{label}</label>
      {children}
      {hint && (
        <p class="hint" id={`f-${name}-hint`}>
          {hint}
        </p>
      )}
      <ComplaintOf asked={asked} name={name} />
    </div>
  );
}

export function ComplaintOf({ asked, name }: { readonly asked: Asked; readonly name: string }) {
  const words = asked.complaints[name];
  return words ? (
    <p class="error" id={`f-${name}-error`}>
      {words}
    </p>
  ) : null;
}

/** A number as text, since a decimal comma is one too; a phone shows digits. */
export function FigureField(it: FieldProps & { readonly fallback?: string }) {
  return (
    <Field {...it}>
      <FigureInput {...it} hinted={it.hint !== undefined} />
    </Field>
  );
}

/** The box alone; `words` names it where no label stands above it. */
export function FigureInput(it: {
  asked: Asked;
  name: string;
  fallback?: string;
  words?: string;
  short?: boolean;
  hinted?: boolean;
}) {
  return (
    <input
      id={`f-${it.name}`}
      class={it.short ? "short" : undefined}
      name={it.name}
      value={it.asked.texts[it.name] ?? it.fallback}
      inputmode="decimal"
      autocomplete="off"
      aria-label={it.words}
      {...told(it.asked, it.name, it.hinted)}
    />
  );
}

/** An amount, and the three letters of the currency all amounts of the form are in. */
export function CurrencyField(it: FieldProps & { readonly fallback: string }) {
  return (
    <Field {...it}>
      <input
        id={`f-${it.name}`}
        name={it.name}
        value={it.asked.texts[it.name] ?? it.fallback}
        maxlength={3}
        autocapitalize="characters"
        autocomplete="off"
        spellcheck={false}
        {...told(it.asked, it.name, it.hint !== undefined)}
      />
    </Field>
  );
}

/** One of a few; `any` is what nothing chosen means. */
export function ChoiceField(
  it: FieldProps & { readonly of: Readonly<Record<string, string>>; readonly any?: string; readonly fallback?: string },
) {
  const chosen = it.asked.texts[it.name] ?? it.fallback;
  return (
    <Field {...it}>
      <select id={`f-${it.name}`} name={it.name} {...told(it.asked, it.name, it.hint !== undefined)}>
        {it.any && <option value="">{it.any}</option>}
        {Object.entries(it.of).map(([value, words]) => (
          <option value={value} selected={value === chosen}>
            {words}
          </option>
        ))}
      </select>
    </Field>
  );
}

/** What is wrong, said at once with the way to each field. */
export function WrongFields({ asked, names }: { asked: Asked; names: Readonly<Record<string, string>> }) {
  const wrong = Object.entries(asked.complaints);
  if (wrong.length === 0) return null;
  return (
    <div role="alert">
      <p class="error">Nothing is worked out yet, because of {wrong.length === 1 ? "one field" : "these fields"}:</p>
      <ul>
        {wrong.map(([name, words]) => (
          <li class="error">
            <a href={`#f-${name}`}>{names[name] ?? name}</a>: {words}
          </li>
        ))}
      </ul>
    </div>
  );
}
