import { DESCRIBED, idOf } from "../pages/submit/form-fields.ts";
import { adopt, askServer } from "./ask-server.ts";
import { fieldsOf, unfold } from "./form-state.ts";

/** The choice “as described here” and the description go together: whoever fills in one gets the other. */
export function keepDescribedChosen(form: HTMLFormElement, { name, value }: HTMLInputElement): void {
  const choice = form.querySelector<HTMLInputElement>(`[name=configuration][value=${DESCRIBED}]`)!;
  if (/^described\./.test(name) && !name.endsWith("_unit") && value.trim() !== "") choice.checked = true;
  if (name === "configuration" && choice.checked) unfold(document.getElementById(idOf("described.title"))!);
}

/** Describes a stored configuration, to be tested at a setting it has not got yet, which is asked for. */
export async function describeStored(form: HTMLFormElement, id: string): Promise<void> {
  const page = await askServer(new Map([...fieldsOf(form), ["copy", id]]), "rows");
  const made = page?.querySelector<HTMLFormElement>("#test");
  if (!page || !made) return;
  adopt(page, "described", fieldsOf(made));
  const setting = document.getElementById(idOf("described.setting"))!;
  unfold(setting);
  setting.dispatchEvent(new Event("input", { bubbles: true }));
  form.querySelector<HTMLInputElement>(`[name=configuration][value=${DESCRIBED}]`)!.checked = true;
  setting.focus();
}
