import type { ErrorCode } from "../../../problem.ts";

/** What to do about each problem; the compiler asks for that of a new code. */
export const PROBLEM_REMEDIES: Record<ErrorCode, string> = {
  malformed:
    "Look at detail: it says what could not be read. JSON must be UTF-8; each part of a form has a name of its own.",
  unauthorized:
    "Send the header Authorization: Bearer mote_… with your whole key. POST /v1/keys makes one; a lost key cannot be recovered.",
  forbidden: "Use the key that stored the trial or room. Some calls are the operator’s alone.",
  "unknown-path": "Compare the address with those on the page For programs.",
  "not-found": "Nothing was ever stored under this id. Copy the id from the record’s own address.",
  "mistyped-id": "A letter or digit of the id is wrong: its last character checks the others. Copy the id again.",
  "wrong-method": "The header Allow names the methods this address takes.",
  "not-acceptable": "Accept one of the media types that detail names, or leave the header Accept out.",
  "idempotency-conflict":
    "Send a new Idempotency-Key with new content. The same key with the same content is answered with the record stored first.",
  "room-volume-conflict":
    "One label is one room of yours. Give another room another label, or correct the volume by POST /v1/rooms/{id}/revisions.",
  "already-merged": "Use the id it was merged into, which detail names.",
  withdrawn: "What is withdrawn stays so. If that was a mistake, store the same test anew.",
  gone: "The words, file or readings were erased for good. Results and hashes remain.",
  "too-large":
    "Crop the log with from and to, leave out channels that no band needs, average to coarser samples, or send runs as separate trials. gzip helps only the wire: 4 MiB counts after unpacking.",
  "unsupported-media-type": "Send application/json or multipart/form-data, packed with gzip or not at all.",
  invalid:
    "Each of errors has a pointer to the place and says what was expected there. A file that cannot be read gives its own code in reading.",
  "unknown-setting": "Take one of the labels that the answer lists, or send the new setting with the configuration.",
  "no-result":
    "Each of refusals says for a band why no rate can be told: the page Method lists them with what to do. Nothing was stored.",
  "not-implemented": "Ask for format=json.",
  internal: "This is our mistake. Try again later; nothing was stored.",
  "too-many-questions": "Read what was asked before: yours may be among it. Ask again after Retry-After seconds.",
  busy: "Wait as many seconds as Retry-After says and send the same again, with the same Idempotency-Key.",
};
