import { makeWord, type NewWord } from "../db/words.ts";
import type { Random } from "./public-id.ts";

/** The paths of a trial that hold personal words; * is any index. */
const PERSONAL = ["note", "specimen", "room.label", "aerosol.note", "counters.*.position", "runs.*.file.name"];

/** What stands for a personal word in a hashed record. */
interface WordDigest {
  readonly word_sha256: string;
}

/**
 * Replaces personal words by their salted digests: the record can then be hashed and published for good, and the words
 * themselves erased.
 */
export async function sealWords(
  record: Readonly<Record<string, unknown>>,
  random: Random,
): Promise<{ sealed: Record<string, unknown>; words: NewWord[] }> {
  const sealed = structuredClone(record) as Record<string, unknown>;
  const words: NewWord[] = [];
  for (const path of PERSONAL) {
    for (const { holder, key } of places(sealed, path.split("."))) {
      const text = holder[key];
      if (typeof text !== "string") continue;
      const word = await makeWord(text, random(16));
      words.push(word);
      holder[key] = { word_sha256: word.digest } satisfies WordDigest;
    }
  }
  return { sealed, words };
}

/** The digests that stand in a sealed record. */
export function digestsIn(record: Readonly<Record<string, unknown>>): string[] {
  return PERSONAL.flatMap((path) =>
    places(record as Record<string, unknown>, path.split(".")).flatMap(({ holder, key }) => {
      const value = holder[key] as Partial<WordDigest> | undefined;
      return typeof value?.word_sha256 === "string" ? [value.word_sha256] : [];
    }),
  );
}

/** The record as readers see it: the words back in their places, null where one was erased. */
export function unsealWords(
  record: Readonly<Record<string, unknown>>,
  words: ReadonlyMap<string, string>,
): Record<string, unknown> {
  const open = structuredClone(record) as Record<string, unknown>;
  for (const path of PERSONAL) {
    for (const { holder, key } of places(open, path.split("."))) {
      const value = holder[key] as Partial<WordDigest> | undefined;
      if (typeof value?.word_sha256 === "string") holder[key] = words.get(value.word_sha256) ?? null;
    }
  }
  return open;
}

type Holder = Record<string, unknown>;

function places(at: unknown, path: readonly string[]): { holder: Holder; key: string }[] {
  const [key, ...rest] = path as [string, ...string[]];
  if (key === "*") return Array.isArray(at) ? at.flatMap((item) => places(item, rest)) : [];
  if (typeof at !== "object" || at === null || !Object.hasOwn(at, key)) return [];
  const holder = at as Holder;
  return rest.length === 0 ? [{ holder, key }] : places(holder[key], rest);
}
