import { countParts, foldedPart, foldText } from "./configuration-identity.ts";
import type { ConfigurationIn } from "./wire/configuration.ts";

type Part = ConfigurationIn["parts"][number];

/** What a configuration has otherwise than another, in words: same box, other filter; two filters instead of one; low or high. */
export function differencesOf(one: ConfigurationIn, other: ConfigurationIn): string[] {
  return [
    ...wordDifference("maker", one.maker, other.maker),
    ...wordDifference("model", one.model, other.model),
    ...wordDifference("arrangement", one.arrangement, other.arrangement),
    ...partDifferences(one, other),
  ];
}

/** The settings that one of two has and the other has not, in words. */
export function settingDifferences(one: readonly string[], other: readonly string[]): string[] {
  const lacks = (labels: readonly string[], label: string) =>
    !labels.some((each) => foldText(each) === foldText(label));
  const more = one.filter((label) => label !== "" && lacks(other, label));
  const less = other.filter((label) => label !== "" && lacks(one, label));
  if (more.length > 0 && less.length > 0) return [`settings ${more.join(", ")} instead of ${less.join(", ")}`];
  if (more.length > 0) return [`also runs at ${more.join(", ")}`];
  return less.length > 0 ? [`does not run at ${less.join(", ")}`] : [];
}

function wordDifference(name: string, one: string | undefined, other: string | undefined): string[] {
  if (foldText(one ?? "") === foldText(other ?? "")) return [];
  if (one === undefined) return [`no ${name} given instead of ${other}`];
  return other === undefined ? [`${name} ${one}`] : [`${name} ${one} instead of ${other}`];
}

/** Equal parts are compared by their number; of the rest, parts of the same sort stand for each other. */
function partDifferences(one: ConfigurationIn, other: ConfigurationIn): string[] {
  const [mine, theirs] = [countParts(one), countParts(other)];
  const wordsOf = wordsByPart([...other.parts, ...one.parts]);
  const differences: string[] = [];
  for (const [text, count] of mine) {
    const there = theirs.get(text);
    if (there === undefined || there === count) continue;
    const { part, description } = wordsOf.get(text)!;
    differences.push(`${counted(count, part)} instead of ${numberWord(there)}: ${description}`);
  }
  const added = [...mine].filter(([text]) => !theirs.has(text));
  const missing = [...theirs].filter(([text]) => !mine.has(text));
  for (const [text, count] of added) {
    const part = wordsOf.get(text)!;
    const at = missing.findIndex(([gone]) => wordsOf.get(gone)!.part === part.part);
    const replaced = at < 0 ? undefined : missing.splice(at, 1)[0];
    if (!replaced) differences.push(`also ${counted(count, part.part)}: ${describe(part)}`);
    else differences.push(replacement(part, count, wordsOf.get(replaced[0])!, replaced[1]));
  }
  return [...differences, ...missing.map(([text, count]) => without(wordsOf.get(text)!, count))];
}

function wordsByPart(parts: readonly Part[]): Map<string, Part> {
  return new Map(parts.map((part) => [[...countParts({ parts: [part] }).keys()][0]!, part]));
}

/** Says only what differs between two parts of one sort. */
function replacement(part: Part, count: number, old: Part, oldCount: number): string {
  const [a, b] = [foldedPart(part), foldedPart(old)];
  const sameWords = a.description === b.description;
  const name = sameWords ? `${part.part} (${part.description})` : part.part;
  const fields = (["description", "size", "stated_flow", "filter_grade"] as const).filter(
    (field) => JSON.stringify(a[field]) !== JSON.stringify(b[field]),
  );
  const now = fields.map((field) => fieldWords(part, field)).join(", ");
  const before = fields.map((field) => fieldWords(old, field)).join(", ");
  const number = count === oldCount ? "" : `, ${numberWord(count)} instead of ${numberWord(oldCount)}`;
  return `${name}: ${now} instead of ${before}${number}`;
}

function without(part: Part, count: number): string {
  return `without ${counted(count, part.part)}: ${describe(part)}`;
}

function describe(part: Part): string {
  const fields = (["description", "size", "stated_flow", "filter_grade"] as const).filter(
    (field) => part[field] !== undefined,
  );
  return fields.map((field) => fieldWords(part, field)).join(", ");
}

function fieldWords(part: Part, field: "description" | "size" | "stated_flow" | "filter_grade"): string {
  if (field === "description") return part.description;
  if (field === "size") return part.size ?? "no size given";
  if (field === "stated_flow") {
    return part.stated_flow ? `${Number(part.stated_flow.value.toPrecision(3))} m³/h` : "no flow stated";
  }
  const grade = part.filter_grade;
  if (!grade) return "no grade given";
  return [grade.system === "other" ? "" : grade.system, grade.grade, grade.edition].filter(Boolean).join(" ");
}

function counted(count: number, part: Part["part"]): string {
  const name = part === "other" ? "other part" : part;
  return `${numberWord(count)} ${name}${count === 1 ? "" : "s"}`;
}

const NUMBERS = [
  "no",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
];

function numberWord(count: number): string {
  return NUMBERS[count] ?? String(count);
}
