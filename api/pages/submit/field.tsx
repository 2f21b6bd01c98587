import type { Child } from "hono/jsx";
import { fieldWords } from "./field-words.ts";
import { type FieldName, idOf } from "./form-fields.ts";
import type { FieldComplaint } from "./form-reader.ts";

/** What the form holds, and what is wrong with it. */
export interface Filled {
  readonly fields: ReadonlyMap<string, string>;
  readonly complaints: readonly FieldComplaint[];
}

interface Props {
  readonly name: FieldName;
  /** In place of the field's own words. */
  readonly label?: Child;
  readonly filled: Filled;
  /** One line: why it matters, or how to write it. */
  readonly hint?: Child;
  readonly wide?: boolean;
}

interface ControlAttributes {
  readonly id: string;
  readonly name: FieldName;
  readonly "aria-describedby"?: string;
  readonly "aria-invalid"?: "true";
}

/** Attributes that tie a control to its label, its hint and its complaint. */
export function controlOf({ name, filled, hint }: Pick<Props, "name" | "filled" | "hint">): ControlAttributes {
  const id = idOf(name);
  const wrong = filled.complaints.some(({ field }) => field === name);
  const described = [hint ? `${id}-hint` : "", wrong ? `${id}-error` : ""].filter(Boolean).join(" ");
  return {
    id,
    name,
    ...(described ? { "aria-describedby": described } : {}),
    ...(wrong ? { "aria-invalid": "true" as const } : {}),
  };
}

/** Attributes of a group of radio buttons, which an error summary may lead to; a group has no validity of its own. */
export function groupOf(it: Pick<Props, "name" | "filled" | "hint">) {
  const { name: _, "aria-invalid": __, ...attributes } = controlOf(it);
  return { ...attributes, tabindex: -1 };
}

/** Hint and complaint of a control, to stand below it. */
export function BelowControl({ name, filled, hint }: Pick<Props, "name" | "filled" | "hint">) {
  const complaint = filled.complaints.find(({ field }) => field === name);
  return (
    <>
      {hint && (
        <p class="hint" id={`${idOf(name)}-hint`}>
          {hint}
        </p>
      )}
      {complaint && (
        <p class="error" id={`${idOf(name)}-error`}>
          <bdi>{complaint.detail}</bdi>
        </p>
      )}
    </>
  );
}

/** A control with its label above it. */
export function Field(it: Props & { readonly children: Child; readonly beside?: FieldName | undefined }) {
  return (
    <div class={it.wide ? "field wide-field" : "field"}>
      <label for={idOf(it.name)}>{it.label ?? fieldWords(it.name)}</label>
      {it.children}
      <BelowControl {...it} />
      {it.beside && <BelowControl name={it.beside} filled={it.filled} />}
    </div>
  );
}

/** One line of text. `number`: a phone shows digits; text all the same, for a decimal comma is one too. `unit` is a control `beside` it. */
export function TextField(
  it: Props & { number?: boolean; type?: string; unit?: Child; beside?: FieldName; most?: number },
) {
  const input = (
    <input
      {...controlOf(it)}
      type={it.type ?? "text"}
      value={it.filled.fields.get(it.name) ?? ""}
      inputmode={it.number ? "decimal" : undefined}
      maxlength={it.most}
      autocomplete="off"
    />
  );
  return (
    <Field {...it}>
      {it.unit ? (
        <div class="with-unit">
          {input}
          {it.unit}
        </div>
      ) : (
        input
      )}
    </Field>
  );
}

type Choices = readonly (readonly [value: string, words: string])[];

/** One of a few, in a list that opens. */
export function SelectField(it: Props & { readonly choices: Choices; readonly fallback?: string }) {
  return (
    <Field {...it}>
      <Select {...it} />
    </Field>
  );
}

/** The list alone; `label` where it stands beside another control and has no label of its own. */
export function Select(
  it: Pick<Props, "name" | "filled" | "hint"> & { choices: Choices; aria?: string; fallback?: string | undefined },
) {
  const chosen = it.filled.fields.get(it.name) ?? it.fallback ?? "";
  return (
    <select {...controlOf(it)} aria-label={it.aria}>
      {it.choices.map(([value, words]) => (
        <option value={value} selected={value === chosen}>
          {words}
        </option>
      ))}
    </select>
  );
}

/** One of a few, all of them seen; nothing is preselected. */
export function RadioField(it: Props & { readonly choices: Choices }) {
  const chosen = it.filled.fields.get(it.name);
  return (
    <fieldset class={it.wide ? undefined : "inner"} {...groupOf(it)}>
      {it.wide ? (
        <SectionLegend>{fieldWords(it.name)}</SectionLegend>
      ) : (
        <legend>{it.label ?? fieldWords(it.name)}</legend>
      )}
      <BelowControl {...it} />
      {it.choices.map(([value, words]) => (
        <label class="choice">
          <input type="radio" name={it.name} value={value} checked={value === chosen} />
          {words}
        </label>
      ))}
    </fieldset>
  );
}

/** The head of a part of the form: a legend for the group, a heading for the page. */
export function SectionLegend({ children }: { readonly children: Child }) {
  return (
    <legend>
      <h2>{children}</h2>
    </legend>
  );
}

/** A box to tick. */
export function TickField(it: Props) {
  return (
    <div class="field wide-field">
      <label class="choice">
        <input {...controlOf(it)} type="checkbox" value="yes" checked={it.filled.fields.has(it.name)} />
        <span>{it.label ?? fieldWords(it.name)}</span>
      </label>
      <BelowControl {...it} />
    </div>
  );
}

/** Fields that may be left out; open where one of them is wrong or filled. */
export function Optional(it: {
  words: Child;
  filled: Filled;
  holds: (name: string) => boolean;
  open?: boolean;
  children: Child;
}) {
  const { fields, complaints } = it.filled;
  const isFilled = [...fields].some(([name, value]) => value.trim() !== "" && it.holds(name));
  return (
    <details open={it.open || isFilled || complaints.some(({ field }) => it.holds(field))}>
      <summary>{it.words}</summary>
      {it.children}
    </details>
  );
}
