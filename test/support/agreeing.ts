/** Where two JSON values differ: numbers by more than a relative 1e-9, anything else at all. Null where they agree. */
export function whereTheyDiffer(one: unknown, other: unknown, at = ""): string | null {
  if (typeof one === "number" && typeof other === "number") {
    const within = Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other));
    return within ? null : `${at}: ${one} and ${other}`;
  }
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null) {
    return one === other ? null : `${at}: ${JSON.stringify(one)} and ${JSON.stringify(other)}`;
  }
  const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
  for (const key of keys) {
    const [a, b] = [one, other].map((value) => (value as Record<string, unknown>)[key]);
    const found = whereTheyDiffer(a, b, `${at}/${key}`);
    if (found) return found;
  }
  return null;
}
