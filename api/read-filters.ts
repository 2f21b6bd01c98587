import { listEntriesOf, listRelatives } from "../db/box-family.ts";
import { findConfiguration } from "../db/configurations.ts";
import type { Database } from "../db/database.ts";
import { listSharing, listWordsOf } from "../db/traits.ts";
import { differencesOf } from "./configuration-differences.ts";
import { countParts, foldText } from "./configuration-identity.ts";
import { parseWords } from "./similar-configurations.ts";
import type { ConfigurationIn } from "./wire/configuration.ts";
import type { FiltersOut } from "./wire/filters.ts";
import { writeCadr, writePooledNoise, writePower } from "./write-ranked-entry.ts";

const LOOKED_AT = 100;

/** A configuration beside those that are the same box with other filters, and what was measured of each. */
export async function readFilters(db: Database, publicUrl: string, id: string, unit: string): Promise<FiltersOut> {
  const own = await findConfiguration(db.read, id);
  const [sharing, relatives] = await Promise.all([
    listSharing(db.read, [id], LOOKED_AT),
    listRelatives(db.read, id, own.derivedFrom),
  ]);
  const self = parseWords(own.json);
  const candidates = [...new Set([...relatives, ...(sharing.get(id) ?? [])])].filter((other) => other !== id);
  const words = candidates.length === 0 ? [] : await listWordsOf(db.read, candidates);
  const boxes = [
    { id, title: own.title, parsed: self },
    ...words
      .map((row) => ({ id: row.id, title: row.title, parsed: parseWords(row.json) }))
      .filter(({ parsed }) => isSameBox(parsed, self))
      .sort((a, b) => (a.id < b.id ? -1 : 1)),
  ];
  const entries = await listEntriesOf(
    db.read,
    boxes.map((box) => box.id),
  );
  return {
    configuration: id,
    unit,
    boxes: boxes.map(({ id: box, title, parsed }) => ({
      id: box,
      url: `${publicUrl}/v1/configurations/${box}`,
      title,
      filters: filterWords(parsed),
      differs: box === id ? [] : differencesOf(parsed, self),
      entries: entries
        .filter(({ configuration }) => configuration === box)
        .map(({ band, setting, invented, pooled }) => ({
          id: pooled.entry,
          band,
          setting,
          cadr: writeCadr(pooled, unit),
          noise: writePooledNoise(pooled),
          power: writePower(pooled),
          trials: pooled.trials,
          rooms: pooled.rooms,
          invented,
        })),
    })),
  };
}

/** Whether two have the same maker and model, where they have any, and the same parts but for their filters. */
function isSameBox(one: ConfigurationIn, other: ConfigurationIn): boolean {
  const same = (a: string | undefined, b: string | undefined) => foldText(a ?? "") === foldText(b ?? "");
  const frame = ({ parts }: ConfigurationIn) =>
    JSON.stringify([...countParts({ parts: parts.filter(({ part }) => part !== "filter") })].sort());
  return (
    one.kind === other.kind &&
    same(one.maker, other.maker) &&
    same(one.model, other.model) &&
    frame(one) === frame(other)
  );
}

function filterWords({ parts }: ConfigurationIn): string[] {
  return parts
    .filter(({ part }) => part === "filter")
    .map(({ count, description, size, filter_grade: grade }) => {
      const words = grade && [grade.system === "other" ? "" : grade.system, grade.grade].filter(Boolean).join(" ");
      return [`${count} × ${description}`, size, words].filter(Boolean).join(", ");
    });
}
