import { noteOf, PUBLISHER, type Reference } from "./reference.ts";

/** An array of one item of CSL-JSON 1.0.2. */
export function cslJson(reference: Reference): string {
  const [year, month, day] = reference.date.split("-").map(Number);
  const item = {
    id: reference.key,
    type: "dataset",
    title: reference.title,
    author: [{ literal: reference.author }],
    issued: { "date-parts": [[year, month, day]] },
    publisher: PUBLISHER,
    version: reference.version,
    URL: reference.url,
    note: noteOf(reference),
  };
  return JSON.stringify([item], null, 2);
}
