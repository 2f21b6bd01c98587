import { z } from "@hono/zod-openapi";
import type { StoredConfiguration } from "../db/configurations.ts";
import type { Connection } from "../db/database.ts";
import { listSharing, listWordsOf } from "../db/traits.ts";
import { differencesOf } from "./configuration-differences.ts";
import { countParts, foldText } from "./configuration-identity.ts";
import { titleWords } from "./configuration-traits.ts";
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
  const wanted = [...new Set([...sharing.values()].flat())];
  const words = wanted.length === 0 ? [] : await listWordsOf(connection, wanted);
  const others = new Map(words.map((row) => [row.id, { title: row.title, parsed: parseWords(row.json) }]));
  return new Map(
    configurations.map(({ id, json }) => {
      const self = parseWords(json);
      const ranked = (sharing.get(id) ?? []).flatMap((candidate) => {
        const other = others.get(candidate);
        if (!other || other.parsed.kind !== self.kind) return [];
        const score = likeness(self, other.parsed);
        return score < LEAST_LIKENESS ? [] : [{ id: candidate, ...other, score }];
      });
      ranked.sort((a, b) => b.score - a.score || (a.id < b.id ? -1 : 1));
      return [
        id,
        ranked.slice(0, MOST).map(({ id: similar, title, parsed }) => {
          const url = `${publicUrl}/v1/configurations/${similar}`;
          return { id: similar, url, title, differs: differencesOf(parsed, self) };
        }),
      ];
    }),
  );
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
