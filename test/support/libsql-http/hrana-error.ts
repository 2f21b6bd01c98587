/** A refusal in the words of the protocol: `{message, code}`. @see hranaErrorOf for what SQLite itself refuses. */
export class HranaError extends Error {
  readonly code: string;

  constructor(code: string, message: string) {
    super(message);
    this.code = code;
  }

  toWire() {
    return { message: this.message, code: this.code };
  }
}

/**
 * SQLite's refusal as a libSQL server words it: the primary code only (the extended one, SQLITE_CONSTRAINT_UNIQUE, never
 * crosses the wire), the message behind "SQLite error: "; what fails while the statement is compiled is SQL_INPUT_ERROR.
 * Source: behaviour of the public libSQL server, hrana/stmt.rs. Codes: https://sqlite.org/rescode.html.
 */
export function hranaErrorOf(error: unknown, stage: "prepare" | "run"): HranaError {
  if (error instanceof HranaError) return error;
  if (!(error instanceof Error) || !("rawCode" in error) || typeof error.rawCode !== "number") throw error;
  const primary = error.rawCode & 0xff;
  if (primary === 1 && stage === "prepare") {
    return new HranaError("SQL_INPUT_ERROR", `SQL input error: ${error.message}`);
  }
  return new HranaError(primaryCodes[primary] ?? "SQLITE_UNKNOWN", `SQLite error: ${error.message}`);
}

/** Primary result codes by number; SQLITE_ERROR (1) is left out because the server calls it unknown. */
const primaryCodes: Record<number, string> = {
  2: "SQLITE_INTERNAL",
  3: "SQLITE_PERM",
  4: "SQLITE_ABORT",
  5: "SQLITE_BUSY",
  6: "SQLITE_LOCKED",
  7: "SQLITE_NOMEM",
  8: "SQLITE_READONLY",
  9: "SQLITE_INTERRUPT",
  10: "SQLITE_IOERR",
  11: "SQLITE_CORRUPT",
  12: "SQLITE_NOTFOUND",
  13: "SQLITE_FULL",
  14: "SQLITE_CANTOPEN",
  15: "SQLITE_PROTOCOL",
  17: "SQLITE_SCHEMA",
  18: "SQLITE_TOOBIG",
  19: "SQLITE_CONSTRAINT",
  20: "SQLITE_MISMATCH",
  21: "SQLITE_MISUSE",
  22: "SQLITE_NOLFS",
  23: "SQLITE_AUTH",
  25: "SQLITE_RANGE",
  26: "SQLITE_NOTADB",
};
