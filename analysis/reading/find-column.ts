import { fold } from "./header-text.ts";
import { ReadingError } from "./reading-error.ts";

/** The column a submitter names: to the letter, else but for case, blanks and look-alike signs. @throws ReadingError "unknown-column", "duplicate-column" */
export function findColumn(names: readonly string[], stated: string): number {
  for (const same of [(name: string) => name === stated, (name: string) => fold(name) === fold(stated)]) {
    const found = names.flatMap((name, column) => (same(name) ? [column] : []));
    if (found.length === 1) return found[0]!;
    if (found.length > 1) {
      throw new ReadingError("duplicate-column", `${found.length} columns are called "${stated}"`, { column: stated });
    }
  }
  const known = names.join(", ").slice(0, 300);
  throw new ReadingError("unknown-column", `no column is called "${stated}"; there are: ${known}`, { column: stated });
}
