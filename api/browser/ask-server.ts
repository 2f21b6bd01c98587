import type { FormLog } from "../pages/submit/trial-from-form.ts";
import { fill, keepingFocus } from "./form-state.ts";

/**
 * The same page as the server makes it of these fields, for what only the server knows: stored configurations,
 * natural decays of other tests. Null where it cannot be reached.
 */
export async function askServer(
  fields: ReadonlyMap<string, string>,
  action: "preview" | "find" | "rows",
  logs: ReadonlyMap<string, FormLog> = new Map(),
): Promise<Document | null> {
  const needed = action === "preview" ? LOOK : CLEANER;
  const body = new FormData();
  for (const [name, value] of fields) if (needed.test(name)) body.set(name, value);
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

/** What each answer is made of, and no more: a name, a note or a log is nobody's business before it is published. */
const LOOK = /^(room|counter|performed_\w+$|from_run$|(full_log|background|natural|total)\.(mark|columns|day_month))/;
const CLEANER = /^(find|copy|configuration)$|^described\.|^noise\.\d+\.level$/;

/** Takes a part of the page from the server's, with what the form holds meanwhile. */
export function adopt(from: Document, id: string, fields: ReadonlyMap<string, string>): void {
  const [part, other] = [document.getElementById(id), from.getElementById(id)];
  if (!part || !other) return;
  keepingFocus(() => {
    part.replaceChildren(...document.importNode(other, true).childNodes);
    fill(part, fields);
  });
}
