/** What a form holds, without its files and buttons. */
export function fieldsOf(form: HTMLFormElement): Map<string, string> {
  const fields = new Map<string, string>();
  for (const [name, value] of new FormData(form)) if (typeof value === "string") fields.set(name, value);
  return fields;
}

/** Fills the controls below an element; what holds something of its own is unfolded. */
export function fill(within: Element, fields: ReadonlyMap<string, string>): void {
  for (const control of within.querySelectorAll<HTMLInputElement>("[name]:is(input, select, textarea)")) {
    const value = fields.get(control.name);
    const ticks = control.type === "radio" || control.type === "checkbox";
    if (ticks) control.checked = value === control.value;
    else if (value !== undefined && control.type !== "file" && control.type !== "hidden") control.value = value;
    const isFilled = ticks
      ? control.checked
      : control.matches("input, textarea") && control.value !== control.defaultValue;
    if (isFilled && control.type !== "hidden") unfold(control);
  }
}

/** Whether a form has no control that could hold this. */
export function isHomeless(form: HTMLFormElement, name: string, value: string): boolean {
  const chosen = name === "configuration" ? `[value="${CSS.escape(value)}"]` : "";
  return value !== "" && form.querySelector(`[name="${CSS.escape(name)}"]${chosen}`) === null;
}

/** Opens every fold that hides an element. */
export function unfold(element: Element): void {
  for (let fold = element.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) {
    fold.open = true;
  }
}

/** Lets a part of the page be made anew under the hands of somebody who writes in it. */
export function keepingFocus(change: () => void): void {
  const before = document.activeElement as HTMLInputElement | null;
  const caret = before?.type === "text" ? [before.selectionStart, before.selectionEnd] : null;
  change();
  const after = before?.id ? (document.getElementById(before.id) as HTMLInputElement | null) : null;
  if (!after || after === document.activeElement) return;
  after.focus({ preventScroll: true });
  if (caret) after.setSelectionRange(caret[0]!, caret[1]!);
}

/** Calls once it has been quiet for so long. */
export function whenQuiet(ms: number, call: () => void): () => void {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  return () => {
    clearTimeout(waiting);
    waiting = setTimeout(call, ms);
  };
}

/** A new element with its attributes and what it holds; text stays text. */
export function make(
  tag: string,
  attributes: Readonly<Record<string, string>>,
  ...inside: (Node | string)[]
): HTMLElement {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...inside);
  return element;
}
