import { METHOD_CHANGES } from "../../../analysis/method-changes.ts";
import { DERIVED, DUMPED, KEPT_BACK } from "../../../db/dump/dumped-tables.ts";
import { COLUMN_WORDS } from "./column-words.ts";

/** The README of a dump: what each table and column is, how to check and restore it, and the method's changelog. */
export function dictionary(columns: ReadonlyMap<string, readonly string[]>): string {
  const tables = Object.entries({ ...DUMPED, ...DERIVED }).filter(
    ([table]) => !(KEPT_BACK as readonly string[]).includes(table),
  );
  return `# Motefall: open data

Measurements by volunteers, not a certification and no medical advice. Public domain (CC0 1.0). What has \`invented\` 1 is made
up for demonstration. Each file is gzipped NDJSON: a canonical JSON object (RFC 8785) a row; bytes stand as
\`{"base64": "…"}\`. Check the files with \`sha256sum --check SHA256SUMS\`; \`npm run restore -- FOLDER\` makes a registry of
them. Personal words and files that were erased are null; a copy made before an erasure still holds them: please erase
them there too.

${tables.map(([table, words]) => tableText(table, words, columns.get(table) ?? [])).join("\n")}
## Method changelog

${METHOD_CHANGES.map(({ version, date, changed }) => `### ${version} (${date})\n\n${changed.map((line) => `- ${line}\n`).join("")}`).join("\n")}`;
}

function tableText(table: string, words: string, columns: readonly string[]): string {
  const lines = columns.map((column) => `- \`${column}\`: ${columnWords(table, column)}\n`);
  return `## ${table}.ndjson.gz\n\n${words}.\n\n${lines.join("")}`;
}

/** @throws Error for a column that nobody described: a dump without its dictionary is of no use in ten years */
function columnWords(table: string, column: string): string {
  const words = COLUMN_WORDS[`${table}.${column}`] ?? COLUMN_WORDS[column];
  if (words === undefined) throw new Error(`column-words.ts does not say what ${table}.${column} is`);
  return words;
}
