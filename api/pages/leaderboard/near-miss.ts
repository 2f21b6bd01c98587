/** Which known name a parameter of an address was probably meant to be, null where none is near. */
export function nearMiss(name: string, known: readonly string[]): string | null {
  const folded = fold(name.slice(0, 40));
  const near = known
    .map((each) => ({ each, off: editsBetween(folded, each) }))
    .filter(({ each, off }) => off <= (each.length > 5 ? 2 : 1)) // of short names nearly everything is near
    .sort((a, b) => a.off - b.off);
  return near[0]?.each ?? null;
}

function fold(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .replaceAll(/[-.\s]/g, "_");
}

/** Letters to add, drop or change until one is the other (Levenshtein 1966), row by row. */
function editsBetween(a: string, b: string): number {
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = above[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(changed, above[j]! + 1, row[j - 1]! + 1));
    }
    above = row;
  }
  return above[b.length]!;
}
