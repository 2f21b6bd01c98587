import { noteOf, PUBLISHER, type Reference } from "./reference.ts";

/** One line of plain text. */
export function plain(reference: Reference): string {
  return `${before(reference)}${reference.title}${after(reference)} ${reference.url}`;
}

/** What styles for reading put before the title. */
export function before({ author, date }: Reference): string {
  return `${author} (${date.slice(0, 4)}). `;
}

/** What they put after it, up to the address. */
export function after(reference: Reference): string {
  return `. ${noteOf(reference)}. ${PUBLISHER}, ${reference.version}, ${reference.date}.`;
}
