/** What every style of citation is made from: plain text on one line each, nothing escaped. */
export interface Reference {
  /** Names the reference in a list of them: letters, digits, `-` and `.`. */
  readonly key: string;
  /** The tester's handle or id; of a pooled figure, those who contributed. */
  readonly author: string;
  /** What it is a CADR of, and the value with its interval in both units. */
  readonly title: string;
  /** The day the figure was made, YYYY-MM-DD. */
  readonly date: string;
  /** What the interval is about, rooms and trials, what was in the air, who paid: a phrase each. */
  readonly details: readonly string[];
  /** Revision or figure, and method. */
  readonly version: string;
  /** The pinned permalink. */
  readonly url: string;
  /** The first 12 hex digits of the SHA-256 of what the permalink answers with. */
  readonly hash: string;
}

export const PUBLISHER = "Motefall";
export const LICENCE = { name: "CC0 1.0", url: "https://creativecommons.org/publicdomain/zero/1.0/" };

/** What follows the title in styles that have one field for all else. */
export function noteOf({ details, hash }: Reference): string {
  return `${[...details, `data SHA-256 ${hash}`, `licence ${LICENCE.name}`].join("; ")}`;
}

/** Characters that turn the direction of text or cannot be seen: in a quotation they could make a number read otherwise. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\ufffe\uffff]+/gu;

/** Text of others on one line, as a citation may carry it. */
export function oneLine(text: string): string {
  return text.replace(UNSEEN, " ").replace(/\s+/gu, " ").trim();
}
