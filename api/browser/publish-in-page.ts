import type { Slot } from "../pages/submit/form-fields.ts";
import type { FieldComplaint } from "../pages/submit/form-reader.ts";
import { type FormLog, trialFromForm } from "../pages/submit/trial-from-form.ts";
import { wantingForPublication } from "../pages/submit/wanting.ts";
import type { Complaint } from "./complaints-in-page.ts";
import type { Draft } from "./draft.ts";
import { complaintsOf } from "./look.tsx";

/** Where a published test stands, or why it was not published. */
export type Published = { readonly id: string } | { readonly wrong: readonly Complaint[] };

/**
 * Sends the test as `POST /v1/trials` takes it. `before` is told of the attempt before it is sent, so that
 * the same test sent again, by another page even, is stored once; it may object.
 */
export async function publish(
  fields: ReadonlyMap<string, string>,
  { logs, complaints }: { logs: ReadonlyMap<Slot, FormLog>; complaints: readonly FieldComplaint[] },
  earlier: Draft["attempt"],
  before: (attempt: NonNullable<Draft["attempt"]>) => Complaint | null,
): Promise<Published> {
  const { trial, files, complaints: unread } = trialFromForm(fields, logs);
  const wanting = [...complaints, ...unread, ...wantingForPublication(trial, fields)];
  if (wanting.length > 0) return { wrong: wanting };
  const sent = JSON.stringify(trial);
  const content = JSON.stringify([sent, [...files].map(([slot, { name, bytes }]) => [slot, name, bytes.length])]);
  const key = earlier?.content === content ? earlier.key : newKey();
  const objection = before({ key, content });
  if (objection) return { wrong: [objection] };
  const body = new FormData();
  body.set("trial", sent);
  for (const [slot, { name, bytes }] of files) body.set(slot, new File([bytes as BlobPart], name));
  let answer: Response;
  try {
    const headers = { Authorization: `Bearer ${fields.get("key")?.trim()}`, "Idempotency-Key": key };
    answer = await fetch("/v1/trials", { method: "POST", headers, body });
  } catch {
    return { wrong: [{ field: null, detail: `No connection. ${KEPT}` }] };
  }
  const told = (await answer.json().catch(() => null)) as Told | null;
  // Whatever stands between here and the registry may answer in its stead.
  if (answer.status >= 500 || told === null)
    return { wrong: [{ field: null, detail: `No answer of the registry, but a fault (${answer.status}). ${KEPT}` }] };
  if (answer.ok && told.id) return { id: told.id };
  if (answer.status === 401 || answer.status === 403) return { wrong: [{ field: "key", detail: told.detail }] };
  return { wrong: complaintsOf(told, fields, trial) };
}

interface Told {
  readonly id?: string;
  readonly detail: string;
  readonly errors?: readonly { readonly pointer: string; readonly detail: string }[];
}

const KEPT =
  "Your draft is kept in this browser. Publish again later: the test is stored once, however often it is sent.";

/** 128 random bits; `randomUUID` is missing where a page is not in a secure context. */
function newKey(): string {
  return Array.from(crypto.getRandomValues(new Uint32Array(4)), (word) => word.toString(16).padStart(8, "0")).join("");
}
