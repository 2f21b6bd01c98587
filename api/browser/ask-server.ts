import type { FormLog } from "../pages/submit/trial-from-form.ts";
import { fieldsOf, fill, keepingFocus } from "./form-state.ts";

/**
 * The same page as the server makes it of the form as it stands, for what only the server knows: stored configurations,
 * natural decays of other tests. Null where it cannot be reached.
 */
export async function askServer(
  form: HTMLFormElement,
  action: "preview" | "find" | "rows",
  logs: ReadonlyMap<string, FormLog> = new Map(),
): Promise<Document | null> {
  const body = new FormData();
  for (const [name, value] of fieldsOf(form)) {
    if (name !== "key" && !/\.(text|kept|kept_name)$/.test(name)) body.set(name, value);
  }
  for (const [slot, { name, bytes }] of logs) body.set(`${slot}.file`, new File([bytes as BlobPart], name));
  body.set("do", action);
  try {
    const answer = await fetch("/submit", { method: "POST", body });
    if (answer.status >= 500) return null;
    return new DOMParser().parseFromString(await answer.text(), "text/html");
  } catch {
    return null;
  }
}

/** Takes a part of the page from the server's, with what the form holds meanwhile. */
export function adopt(form: HTMLFormElement, from: Document, id: string): void {
  const [part, other] = [document.getElementById(id), from.getElementById(id)];
  if (!part || !other) return;
  const fields = fieldsOf(form);
  keepingFocus(() => {
    part.replaceChildren(...document.importNode(other, true).childNodes);
    fill(part, fields);
  });
}
