import { canonicalJson, sha256Hex } from "../db/content-hash.ts";
import type { ConfigurationIn } from "./wire/configuration.ts";

/**
 * What makes two configurations one: SHA-256 of the canonical JSON of kind, maker, model, arrangement and parts. Strings
 * are folded, flows are in m³/h, equal parts are counted together and the order they are named in does not matter.
 */
export async function identityOf(configuration: ConfigurationIn): Promise<string> {
  const { kind, maker, model, arrangement } = configuration;
  const parts = [...countParts(configuration)]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([text, count]) => ({ count, part: JSON.parse(text) }));
  return sha256Hex(
    canonicalJson(
      present({ kind, maker: folded(maker), model: folded(model), arrangement: folded(arrangement), parts }),
    ),
  );
}

/** How many there are of each part, by its folded canonical JSON: parts that are equal count as one kind of part. */
export function countParts({ parts }: Pick<ConfigurationIn, "parts">): Map<string, number> {
  const counts = new Map<string, number>();
  for (const part of parts) {
    const text = canonicalJson(foldedPart(part));
    counts.set(text, (counts.get(text) ?? 0) + part.count);
  }
  return counts;
}

/** NFC, trimmed, single-spaced, case-folded: how labels and words are compared. By way of capitals, so that ß is ss. */
export function foldText(text: string): string {
  return text.normalize("NFC").trim().replaceAll(/\s+/g, " ").toUpperCase().toLowerCase().normalize("NFC");
}

function folded(text: string | undefined): string | undefined {
  return text === undefined ? undefined : foldText(text);
}

/** A part with its words folded and its flow in m³/h; its count is left out. */
export function foldedPart({ part, description, size, stated_flow, filter_grade }: ConfigurationIn["parts"][number]) {
  return present({
    part,
    description: foldText(description),
    size: folded(size),
    // Six digits: the same flow stated in cfm and in m³/h is one flow.
    stated_flow: stated_flow && Number(stated_flow.value.toPrecision(6)),
    filter_grade:
      filter_grade &&
      present({ ...filter_grade, grade: foldText(filter_grade.grade), edition: folded(filter_grade.edition) }),
  });
}

/** Drops what is undefined: absent and undefined are the same thing to say. */
function present<T extends object>(object: T): Partial<T> {
  return Object.fromEntries(Object.entries(object).filter(([, value]) => value !== undefined)) as Partial<T>;
}
