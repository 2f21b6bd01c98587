import { StoreError } from "../db/store-error.ts";
import { checkCharacter, fold, isCrockford, randomCharacters } from "./crockford.ts";

/** Random bytes, injected so that tests and the demo can be repeated. */
export type Random = (length: number) => Uint8Array;

/** What a public id may name. The prefix is part of the id and enters its check character. */
export const ID_PREFIXES = {
  trial: "trl",
  configuration: "cfg",
  entry: "ent",
  submitter: "sub",
  room: "rom",
  question: "qst",
} as const;
export type IdType = keyof typeof ID_PREFIXES;

const LENGTH = 10; // 50 random bits: with a million ids of a type, one clash in about 2 000 registries

/** A new public id: prefix, ten random characters and a check character, as in trl-7K3M9QX2RVJ. */
export function makeId(type: IdType, random: Random): string {
  const body = randomCharacters(random(LENGTH));
  return `${ID_PREFIXES[type]}-${body}${checkOf(type, body)}`;
}

/**
 * The canonical form of an id as somebody typed it: any case, O for 0, I or L for 1, with or without the hyphen.
 * @throws StoreError "mistyped-id" where the check character does not fit, "not-found" where it is no id of this type
 */
export function parseId(type: IdType, text: string): string {
  const prefix = ID_PREFIXES[type];
  const match = new RegExp(`^${prefix}[-_ ]?(.{${LENGTH + 1}})$`, "i").exec(text.trim());
  const body = fold(match?.[1] ?? "");
  if (!match || !isCrockford(body)) {
    throw new StoreError(
      "not-found",
      `${quoted(text)} is no ${type} id: that is ${prefix}- and ${LENGTH + 1} characters.`,
    );
  }
  if (checkOf(type, body.slice(0, LENGTH)) !== body[LENGTH]) {
    throw new StoreError(
      "mistyped-id",
      `The check character of ${quoted(text)} fails: at least one character is mistyped.`,
    );
  }
  return `${prefix}-${body}`;
}

function checkOf(type: IdType, body: string): string {
  return checkCharacter(fold(ID_PREFIXES[type]).replaceAll("U", "V") + body);
}

function quoted(text: string): string {
  return JSON.stringify(text.length > 40 ? `${text.slice(0, 40)}…` : text);
}
