/** Tables whose rows may hold megabytes each, as a file of 4 MiB does: few of them fit into a small machine's memory. */
const HEAVY: readonly string[] = ["files", "series", "pictures"];

/** How many rows of a table are read or written at once, where all of them are gone through. */
export function rowsAtOnce(table: string): number {
  return HEAVY.includes(table) ? 8 : 400;
}
