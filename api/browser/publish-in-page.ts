import type { Slot } from "../pages/submit/form-fields.ts";
import type { FieldComplaint } from "../pages/submit/form-reader.ts";
import { type FormLog, trialFromForm } from "../pages/submit/trial-from-form.ts";
import { wantingForPublication } from "../pages/submit/wanting.ts";
import type { Complaint } from "./complaints-in-page.ts";
import { complaintsOf } from "./look.tsx";

/** Where a published test stands; or why it was not published, or (unknown) why nobody can tell. */
export type Published = { readonly id: string } | { readonly wrong: readonly Complaint[]; readonly isUnknown: boolean };

/**
 * Sends the test as `POST /v1/trials` takes it. `before` is told of the attempt before it is sent; it may object. `earlier`
 * is one that was sent and not answered: the same test sent under it again is stored once, a changed one not behind the back.
 */
export async function publish(
  fields: ReadonlyMap<string, string>,
  { logs, complaints }: { logs: ReadonlyMap<Slot, FormLog>; complaints: readonly FieldComplaint[] },
  earlier: string | null,
  before: (attempt: string) => Complaint | null,
): Promise<Published> {
  const { trial, files, complaints: unread } = trialFromForm(fields, logs);
  const submitterKey = fields.get("key")?.replaceAll(/\s+/g, "") ?? "";
  const wanting = [...complaints, ...unread, ...wantingForPublication(trial, fields)];
  if (wanting.length > 0) return known(...wanting);
  // No header takes other letters: it would look as if there were no connection.
  if (!/^[!-~]+$/.test(submitterKey)) return known({ field: "key", detail: "No key is written with such letters." });
  const attempt = earlier ?? newKey();
  const objection = before(attempt);
  if (objection) return { wrong: [objection], isUnknown: earlier !== null };
  const body = new FormData();
  body.set("trial", JSON.stringify(trial));
  for (const [slot, { name, bytes }] of files) body.set(slot, new File([bytes as BlobPart], name));
  let answer: Response;
  try {
    const headers = { Authorization: `Bearer ${submitterKey}`, "Idempotency-Key": attempt };
    answer = await fetch("/v1/trials", { method: "POST", headers, body });
  } catch {
    return unknown(`No connection. ${KEPT}`);
  }
  const told = (await answer.json().catch(() => null)) as Partial<Told> | null;
  if (answer.ok && typeof told?.id === "string") return { id: told.id };
  if (answer.status === 413) return known({ field: null, detail: TOO_LARGE });
  if (answer.status === 429) {
    const seconds = Number(answer.headers.get("Retry-After"));
    const when =
      seconds > 0 ? ` Try again in ${seconds < 120 ? `${seconds} s` : `${Math.ceil(seconds / 60)} min`}.` : "";
    return unknown(`The registry is busy.${when} ${KEPT}`);
  }
  // Whatever stands between here and the registry may answer in its stead.
  if (answer.ok || answer.status >= 500 || typeof told?.detail !== "string") {
    return unknown(`No answer of the registry, but a fault (${answer.status}). ${KEPT}`);
  }
  const problem = { ...told, detail: told.detail };
  if (answer.status === 401 || answer.status === 403) return known({ field: "key", detail: problem.detail });
  if (told.code === "idempotency-conflict") {
    const [first = "another test"] = /trl-\w+/.exec(problem.detail) ?? [];
    const detail = `What you sent before did arrive: it is published as ${first}, without your changes. Withdraw that one, or publish again to add this one.`;
    return known({ field: null, detail });
  }
  return known(...complaintsOf(problem, fields, trial));
}

interface Told {
  readonly id: string;
  readonly code: string;
  readonly detail: string;
  readonly errors: readonly { readonly pointer: string; readonly detail: string }[];
}

function known(...wrong: readonly Complaint[]): Published {
  return { wrong, isUnknown: false };
}

function unknown(detail: string): Published {
  return { wrong: [{ field: null, detail }], isUnknown: true };
}

const KEPT =
  "Your draft is kept in this browser. Publish again later: the test is stored once, however often it is sent.";
const TOO_LARGE = "The logs are too large to send: cut them to the hours of the test.";

/** 128 random bits; `randomUUID` is missing where a page is not in a secure context. */
function newKey(): string {
  return crypto.getRandomValues(new Uint8Array(16)).join(".");
}
