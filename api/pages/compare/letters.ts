import type { ComparisonOut } from "../../wire/comparison.ts";

/** What an entry is called in short on the page: A, B, C … in the order of the table. */
export function letterOf({ entries }: Pick<ComparisonOut, "entries">): (id: string) => string {
  const letters = new Map(entries.map(({ id }, i) => [id, "ABCDEF"[i]!]));
  return (id) => letters.get(id) ?? "";
}
