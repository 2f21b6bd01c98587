import { after, before } from "./plain.ts";
import type { Reference } from "./reference.ts";

/**
 * CommonMark 0.31: a backslash before any ASCII punctuation makes it literal (section 2.4). Only what could begin markup
 * has one, here and where names of sites, mentions and emoji are taken up as well: the rest is to be read as it is typed.
 */
export function markdown(reference: Reference): string {
  return `${escaped(before(reference))}[${escaped(reference.title)}](<${address(reference.url)}>)${escaped(after(reference))}`;
}

function escaped(text: string): string {
  return text
    .replace(/[\\`*_[\]<>{}&#~|!$^@]|:(?!\s)|(?<=\w)\.(?=[a-z])/gi, "\\$&")
    .replace(/^(\s*)([-+=])/, "$1\\$2") // a list
    .replace(/^(\s*\d+)([.)])/, "$1\\$2");
}

/** Inside angle brackets an address may hold anything but these and line ends. */
function address(url: string): string {
  return url.replace(/[<>\\\s]/g, encodeURIComponent);
}
