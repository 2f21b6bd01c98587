import { z } from "@hono/zod-openapi";
import type { StoredConfiguration } from "../db/configurations.ts";
import type { Connection } from "../db/database.ts";
import { listSharing, listSharingTraits, listWordsOf } from "../db/traits.ts";
import { differencesOf } from "./configuration-differences.ts";
import { countParts, foldText } from "./configuration-identity.ts";
import { titleWords, traitsOf } from "./configuration-traits.ts";
import { ConfigurationIn } from "./wire/configuration.ts";

export const SimilarOut = z
  .object({ id: z.string(), url: z.string(), title: z.string(), differs: z.array(z.string()) })
  .openapi("SimilarConfiguration", {
    description: "What it has otherwise than the configuration asked for, in words.",
  });
export type SimilarOut = z.infer<typeof SimilarOut>;

const MOST = 5;
/** How many that share a trait are compared part by part: fewer where many configurations are listed at once. */
const COMPARED = { one: 40, many: 10 };
/** Below this two have hardly more than a word in common. */
const LEAST_LIKENESS = 1;

/** For each configuration up to five others of its kind that resemble it, the most alike first. */
export async function findSimilar(
  connection: Connection,
  publicUrl: string,
  configurations: readonly StoredConfiguration[],
): Promise<ReadonlyMap<string, SimilarOut[]>> {
  const ids = configurations.map(({ id }) => id);
  const sharing = await listSharing(connection, ids, configurations.length > 1 ? COMPARED.many : COMPARED.one);
  const others = await wordsOf(connection, [...new Set([...sharing.values()].flat())]);
  return new Map(
    configurations.map(({ id, json }) => [id, mostAlike(publicUrl, parseWords(json), sharing.get(id) ?? [], others)]),
  );
}

/** Up to five stored configurations that resemble one as it is described, the very same one among them. */
export async function findSimilarTo(
  connection: Connection,
  publicUrl: string,
  described: ConfigurationIn,
): Promise<SimilarOut[]> {
  const candidates = await listSharingTraits(connection, await traitsOf(described), COMPARED.one);
  return mostAlike(publicUrl, described, candidates, await wordsOf(connection, candidates));
}

type Words = ReadonlyMap<string, { readonly title: string; readonly parsed: ConfigurationIn }>;

async function wordsOf(connection: Connection, ids: readonly string[]): Promise<Words> {
  const words = ids.length === 0 ? [] : await listWordsOf(connection, ids);
  return new Map(words.map(({ id, title, json }) => [id, { title, parsed: parseWords(json) }]));
}

function mostAlike(publicUrl: string, self: ConfigurationIn, candidates: readonly string[], others: Words) {
  const ranked = candidates.flatMap((id) => {
    const other = others.get(id);
    if (!other || other.parsed.kind !== self.kind) return [];
    const score = likeness(self, other.parsed);
    return score < LEAST_LIKENESS ? [] : [{ id, ...other, score }];
  });
  ranked.sort((a, b) => b.score - a.score || (a.id < b.id ? -1 : 1));
  return ranked.slice(0, MOST).map(({ id, title, parsed }): SimilarOut => {
    return { id, url: `${publicUrl}/v1/configurations/${id}`, title, differs: differencesOf(parsed, self) };
  });
}

/** Stored words as the schema reads them: what was stored came through it. */
export function parseWords(json: string): ConfigurationIn {
  return ConfigurationIn.parse({ ...(JSON.parse(json) as object), settings: [] });
}

/**
 * How alike two are, from 0 to 7: three for equal parts, two for one maker and model, one for the arrangement, one for the
 * words of the title; parts and words by the share that both have of all there are. The weights are a choice.
 */
function likeness(a: ConfigurationIn, b: ConfigurationIn): number {
  const sameModel = a.model !== undefined && foldText(a.model) === foldText(b.model ?? "");
  const sameMaker = foldText(a.maker ?? "") === foldText(b.maker ?? "");
  const sameArrangement = a.arrangement !== undefined && foldText(a.arrangement) === foldText(b.arrangement ?? "");
  const words = (title: string) => new Map([...titleWords(title)].map((word) => [word, 1]));
  return (
    3 * shareInCommon(countParts(a), countParts(b)) +
    (sameModel && sameMaker ? 2 : 0) +
    (sameArrangement ? 1 : 0) +
    shareInCommon(words(a.title), words(b.title))
  );
}

/** Σ min / Σ max of the counts (Ružička's index; Jaccard's where all counts are 1). */
function shareInCommon(a: ReadonlyMap<string, number>, b: ReadonlyMap<string, number>): number {
  let [least, most] = [0, 0];
  for (const key of new Set([...a.keys(), ...b.keys()])) {
    const [x, y] = [a.get(key) ?? 0, b.get(key) ?? 0];
    least += Math.min(x, y);
    most += Math.max(x, y);
  }
  return most > 0 ? least / most : 0;
}
