import { existsSync } from "node:fs";

/** A command's refusal: what a person did that cannot be done. It is told without a stack. */
export class Refused extends Error {
  override readonly name = "Refused";
}

/** Runs a command. What a person can mend is said in a sentence; anything else is a bug and keeps its stack. */
export async function inPlainWords(command: () => Promise<void>): Promise<void> {
  try {
    await command();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    console.error(error.message);
    process.exitCode = 2;
  }
}

/** @throws Refused where the database is a file that is not there: opening it would make an empty one */
export function requireDatabase(libsqlUrl: string): void {
  const path = libsqlUrl.replace(/^file:(\/\/(?=\/))?/, "");
  if (!libsqlUrl.startsWith("file:") || existsSync(path)) return;
  const demo = existsSync(".data/demo.db") ? " The demonstration's is LIBSQL_URL=file:.data/demo.db." : "";
  throw new Refused(`No database is at ${path}: name one by LIBSQL_URL.${demo}`);
}
