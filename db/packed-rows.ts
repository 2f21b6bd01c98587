import { type SQL, type SQLWrapper, sql } from "drizzle-orm";

/** A value of SQLite as it comes out of a row. */
export type Packed = string | number | null;

/**
 * The columns of a row as one text, each as a SQL literal (which brings every double back to the last bit, where SQLite's
 * JSON keeps 15 digits), with tabs between. The client takes some 15 µs for a row of twenty columns and 3 µs for its text:
 * for hundreds of thousands of rows that tells. No text among the columns may hold a tab or a line end.
 */
export function packed(columns: readonly SQLWrapper[]): SQL<string> {
  return sql<string>`${sql.join(
    columns.map((column) => sql`quote(${column})`),
    sql` || char(9) || `,
  )}`;
}

/** The values of one packed row. */
export function unpack(row: string): Packed[] {
  return row.split("\t").map((literal) => {
    if (literal === "NULL") return null;
    return literal.startsWith("'") ? literal.slice(1, -1).replaceAll("''", "'") : Number(literal);
  });
}
