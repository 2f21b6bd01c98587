import { after, before } from "./plain.ts";
import type { Reference } from "./reference.ts";

/** CommonMark 0.31: a backslash before any ASCII punctuation makes it literal (section 2.4). */
export function markdown(reference: Reference): string {
  return `${escaped(before(reference))}[${escaped(reference.title)}](<${address(reference.url)}>)${escaped(after(reference))}`;
}

function escaped(text: string): string {
  return text.replace(/[!-/:-@[-`{-~]/g, "\\$&");
}

/** Inside angle brackets an address may hold anything but these and line ends. */
function address(url: string): string {
  return url.replace(/[<>\\\s]/g, encodeURIComponent);
}
