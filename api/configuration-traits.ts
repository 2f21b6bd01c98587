import { canonicalJson, sha256Hex } from "../db/content-hash.ts";
import { countParts, foldText } from "./configuration-identity.ts";
import type { ConfigurationIn } from "./wire/configuration.ts";

/** What a configuration is found alike by, among those of its kind: each part, maker with model, arrangement, words of the title. */
export async function traitsOf(configuration: ConfigurationIn): Promise<string[]> {
  const { kind, maker, model, arrangement, title } = configuration;
  const traits: unknown[] = [
    ...[...countParts(configuration).keys()].map((part) => ["part", part]),
    ...(maker !== undefined && model !== undefined ? [["model", foldText(maker), foldText(model)]] : []),
    ...(arrangement === undefined ? [] : [["arrangement", foldText(arrangement)]]),
    ...[...titleWords(title)].map((word) => ["word", word]),
  ];
  const hashes = await Promise.all(traits.map((trait) => sha256Hex(canonicalJson([kind, trait]))));
  return hashes.map((hash) => hash.slice(0, 16)).sort(); // 64 bits: two that clash only bring in one more to look at
}

/** The words of a title that tell something, folded. */
export function titleWords(title: string): Set<string> {
  return new Set(
    foldText(title)
      .split(/[^\p{L}\p{N}]+/u)
      .filter((word) => word.length >= 3 || /\d/.test(word)),
  );
}
