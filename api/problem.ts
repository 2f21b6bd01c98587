import type { StoreErrorCode } from "../db/store-error.ts";

/** What HTTP itself can be refused for, besides what the store refuses. */
export type RequestErrorCode =
  | "malformed"
  | "unauthorized"
  | "forbidden"
  | "unknown-path"
  | "wrong-method"
  | "not-acceptable"
  | "too-large"
  | "unsupported-media-type"
  | "invalid"
  | "no-result"
  | "not-implemented"
  | "internal";

export type ErrorCode = RequestErrorCode | StoreErrorCode;

type Answer = {
  readonly status: 400 | 401 | 403 | 404 | 405 | 406 | 409 | 410 | 413 | 415 | 422 | 429 | 500 | 501;
  readonly title: string;
};

/** Every way a request can fail, and what is said of it: the one table from codes to statuses. */
export const ERRORS: Record<ErrorCode, Answer> = {
  malformed: { status: 400, title: "The request could not be read" },
  unauthorized: { status: 401, title: "A valid key is needed" },
  forbidden: { status: 403, title: "This key may not do that" },
  "unknown-path": { status: 404, title: "Nothing is at this address" },
  "not-found": { status: 404, title: "No such record" },
  "mistyped-id": { status: 404, title: "The id is mistyped: its check character fails" },
  "wrong-method": { status: 405, title: "This address does not take that method" },
  "not-acceptable": { status: 406, title: "None of the accepted media types can be served" },
  "idempotency-conflict": { status: 409, title: "The Idempotency-Key was used for other content" },
  "room-volume-conflict": { status: 409, title: "This room label has another volume on record" },
  "already-merged": { status: 409, title: "The configuration was merged into another" },
  withdrawn: { status: 409, title: "The trial was withdrawn" },
  gone: { status: 410, title: "The content was erased" },
  "too-large": { status: 413, title: "The request is too large" },
  "unsupported-media-type": { status: 415, title: "The media type cannot be read" },
  invalid: { status: 422, title: "The content does not fit" },
  "unknown-setting": { status: 422, title: "The configuration has no such setting" },
  "no-result": { status: 422, title: "No clean air delivery rate can be told from these runs" },
  "not-implemented": { status: 501, title: "This form of answer is not made here" },
  internal: { status: 500, title: "Something is broken here" },
  "too-many-questions": { status: 429, title: "Too many questions wait for an answer" },
  busy: { status: 429, title: "Too many writers at once; try again" },
};

export interface Complaint {
  readonly detail: string;
  /** RFC 6901 JSON pointer into the request, as a URI fragment. */
  readonly pointer: string;
}

/** A request that cannot be served as sent. `details` become members of the problem document. */
export class RequestError extends Error {
  override readonly name = "RequestError";
  readonly code: RequestErrorCode;
  readonly errors: readonly Complaint[];
  readonly details: Readonly<Record<string, unknown>>;

  constructor(
    code: RequestErrorCode,
    message: string,
    errors: readonly Complaint[] = [],
    details: Readonly<Record<string, unknown>> = {},
  ) {
    super(message);
    this.code = code;
    this.errors = errors;
    this.details = details;
  }
}

/** One complaint about one place of the request. */
export function invalid(path: readonly PropertyKey[], detail: string): RequestError {
  return new RequestError("invalid", detail, [{ detail, pointer: pointer(path) }]);
}

/** The JSON pointer of a path, in the fragment form of RFC 6901 section 6. */
export function pointer(path: readonly PropertyKey[]): string {
  return `#${path.map((key) => `/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("")}`;
}

/** An RFC 9457 problem document. */
export function problem(
  code: ErrorCode,
  publicUrl: string,
  detail: string,
  more: Readonly<Record<string, unknown>> = {},
): Response {
  const { status, title } = ERRORS[code];
  const headers = new Headers({ "Content-Type": "application/problem+json; charset=utf-8" });
  if (status === 401) headers.set("WWW-Authenticate", 'Bearer realm="motefall"');
  if (status === 429) headers.set("Retry-After", code === "busy" ? "1" : "3600");
  const body = { type: `${publicUrl}/problems#${code}`, title, status, code, detail, ...more };
  return new Response(`${JSON.stringify(body)}\n`, { status, headers });
}
