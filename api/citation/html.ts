import { after, before } from "./plain.ts";
import type { Reference } from "./reference.ts";

/** A piece of HTML without any style. */
export function html(reference: Reference): string {
  return `${escaped(before(reference))}<a href="${escaped(reference.url)}"><cite>${escaped(reference.title)}</cite></a>${escaped(after(reference))}`;
}

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.codePointAt(0)};`);
}
