import type { Child } from "hono/jsx";

/** A form that comes back: what its fields hold, and what is wrong with them, by their names. */
export interface Filled {
  readonly texts: Readonly<Record<string, string>>;
  readonly complaints: Readonly<Record<string, string>>;
}

interface InputProps {
  readonly asked: Filled;
  readonly name: string;
  /** Stands in a field that was left blank. */
  readonly fallback?: string | undefined;
  /** Names a box that no label stands above. */
  readonly words?: string;
  readonly hinted?: boolean;
  readonly placeholder?: string;
}

interface FieldProps {
  readonly asked: Filled;
  readonly name: string;
  readonly label: Child;
  readonly hint?: Child;
}

/** What any control has: its name, and ties to its hint and to the complaint about it. */
function control({ asked, name, hinted = false, words }: Omit<InputProps, "fallback">) {
  const described = [hinted ? `f-${name}-hint` : "", asked.complaints[name] ? `f-${name}-error` : ""];
  const ids = described.filter(Boolean).join(" ");
  return {
    id: `f-${name}`,
    name,
    ...(words ? { "aria-label": words } : {}),
    ...(ids ? { "aria-describedby": ids } : {}),
    ...(asked.complaints[name] ? { "aria-invalid": "true" as const } : {}),
  };
}

/** A control under its label, over its hint and what is wrong with it, and with what stands `beside` it. */
export function Field(it: FieldProps & { readonly beside?: string; readonly children: Child }) {
  const { asked, name, label, hint, beside, children } = it;
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
      {beside && <ComplaintOf asked={asked} name={beside} />}
    </div>
  );
}

export function ComplaintOf({ asked, name }: { readonly asked: Filled; readonly name: string }) {
  const words = asked.complaints[name];
  return words ? (
    <p class="error" id={`f-${name}-error`}>
      {words}
    </p>
  ) : null;
}

type Mode = "decimal" | "numeric" | "text";

/** A number as text, since a decimal comma is one too; a phone shows digits. */
export function FigureField(it: FieldProps & Pick<InputProps, "fallback" | "placeholder"> & { readonly mode?: Mode }) {
  return (
    <Field {...it}>
      <FigureInput {...it} hinted={it.hint !== undefined} />
    </Field>
  );
}

/** The box alone. */
export function FigureInput(it: InputProps & { readonly short?: boolean; readonly mode?: Mode }) {
  return (
    <input
      {...control(it)}
      class={it.short ? "short" : undefined}
      value={it.asked.texts[it.name] ?? it.fallback}
      placeholder={it.placeholder}
      inputmode={it.mode ?? "decimal"}
      autocomplete="off"
    />
  );
}

/** The three letters of the currency that amounts beside it are in. */
export function CurrencyInput(it: InputProps & { readonly class?: string }) {
  return (
    <input
      {...control(it)}
      class={it.class}
      value={it.asked.texts[it.name] ?? it.fallback}
      placeholder={it.placeholder}
      maxlength={3}
      autocapitalize="characters"
      autocomplete="off"
      spellcheck={false}
    />
  );
}

interface Offered {
  readonly of: Readonly<Record<string, string>>;
  /** What nothing chosen means. */
  readonly any?: string;
}

/** One of a few. */
export function ChoiceField(it: FieldProps & Offered & Pick<InputProps, "fallback">) {
  return (
    <Field {...it}>
      <ChoiceInput {...it} hinted={it.hint !== undefined} />
    </Field>
  );
}

/** The list alone. */
export function ChoiceInput(it: InputProps & Offered) {
  const chosen = it.asked.texts[it.name] ?? it.fallback;
  return (
    <select {...control(it)}>
      {it.any && <option value="">{it.any}</option>}
      {Object.entries(it.of).map(([value, words]) => (
        <option value={value} selected={value === chosen}>
          {words}
        </option>
      ))}
    </select>
  );
}

/** A box to tick, which stands for `value`. */
export function TickField({ asked, name, label, value }: FieldProps & { readonly value: string }) {
  return (
    <div>
      <label class="choice">
        <input {...control({ asked, name })} type="checkbox" value={value} checked={asked.texts[name] === value} />
        {label}
      </label>
      <ComplaintOf asked={asked} name={name} />
    </div>
  );
}
