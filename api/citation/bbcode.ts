import { after, before } from "./plain.ts";
import type { Reference } from "./reference.ts";

/** BBCode has no standard and no escape: square brackets become round ones, so that no tag can begin in a title. */
export function bbcode(reference: Reference): string {
  return `${escaped(before(reference))}[url=${reference.url}]${escaped(reference.title)}[/url]${escaped(after(reference))}`;
}

function escaped(text: string): string {
  return text.replaceAll("[", "(").replaceAll("]", ")");
}
