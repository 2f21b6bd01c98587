import { fieldInPlace } from "../pages/submit/field-words.ts";
import { type FieldName, idOf } from "../pages/submit/form-fields.ts";
import { make, unfold } from "./form-state.ts";

/** What is wrong with a field, or, where that is null, with the whole. */
export interface Complaint {
  readonly field: FieldName | null;
  readonly detail: string;
}

/** Sets complaints beside the fields they are about, in place of those that stood there. */
export function showComplaints(form: HTMLFormElement, complaints: readonly Complaint[]): void {
  for (const old of form.querySelectorAll("p.error[id$='-error']")) {
    if (old.closest("#preview")) continue; // made anew with the preview
    const control = document.getElementById(old.id.replace(/-error$/, ""));
    control?.removeAttribute("aria-invalid");
    describe(control, (ids) => ids.filter((id) => id !== old.id));
    old.remove();
  }
  for (const { field, detail } of complaints) {
    const id = field === null ? "" : idOf(field);
    const control = document.getElementById(id);
    if (!control || control.closest("#preview") || document.getElementById(`${id}-error`)) continue;
    control.setAttribute("aria-invalid", "true");
    describe(control, (ids) => [...ids, `${id}-error`]);
    const place = control.matches("fieldset") ? control : control.closest(".field");
    place?.append(make("p", { class: "error", id: `${id}-error` }, make("bdi", {}, detail)));
    unfold(control);
  }
}

function describe(control: Element | null, change: (ids: string[]) => string[]): void {
  if (!control) return;
  const ids = change((control.getAttribute("aria-describedby") ?? "").split(" ").filter(Boolean));
  if (ids.length > 0) control.setAttribute("aria-describedby", ids.join(" "));
  else control.removeAttribute("aria-describedby");
}

/** All that is wrong in one list on top of the form, each a link to where it is; nothing where all is well. */
export function summarise(form: HTMLFormElement, complaints: readonly Complaint[]): void {
  for (const old of document.querySelectorAll(".summary")) old.remove();
  if (complaints.length === 0) return;
  const ids = [...form.querySelectorAll("[id]")].map(({ id }) => id);
  const place = ({ field }: Complaint) => (field === null ? -1 : ids.indexOf(idOf(field)));
  const inOrder = complaints.toSorted((a, b) => place(a) - place(b));
  const items = inOrder.map(({ field, detail }) => {
    const words = make("bdi", {}, detail);
    if (field === null) return make("li", {}, words);
    return make("li", {}, make("a", { href: `#${idOf(field)}` }, `${fieldInPlace(field)}: `, words));
  });
  const head = make("h2", {}, items.length === 1 ? "One thing to put right" : `${items.length} things to put right`);
  const summary = make("div", { class: "summary", tabindex: "-1", role: "alert" }, head, make("ul", {}, ...items));
  form.before(summary);
  summary.focus();
}
