/** Why the store refuses: a closed set of domain words. What they mean on the wire is said in api/problems.ts. */
export type StoreErrorCode =
  | "not-found"
  | "mistyped-id"
  | "idempotency-conflict"
  | "room-volume-conflict"
  | "unknown-setting"
  | "already-merged"
  | "withdrawn"
  | "gone"
  | "too-many-questions"
  | "busy";

export class StoreError extends Error {
  override readonly name = "StoreError";
  readonly code: StoreErrorCode;
  readonly details: Readonly<Record<string, unknown>>;

  constructor(code: StoreErrorCode, message: string, details: Readonly<Record<string, unknown>> = {}) {
    super(message);
    this.code = code;
    this.details = details;
  }
}

/**
 * True where another writer may have come first: a UNIQUE row is there already, or what was read is stale. No repetition
 * mends a row that a CHECK, NOT NULL or FOREIGN KEY refuses. Over HTTP only the common code arrives, which may be either.
 */
export function isLostRace(error: unknown): boolean {
  return hasCode(error, "SQLITE_CONSTRAINT") && !BROKEN.some((code) => hasCode(error, code));
}

const BROKEN = ["SQLITE_CONSTRAINT_CHECK", "SQLITE_CONSTRAINT_NOTNULL", "SQLITE_CONSTRAINT_FOREIGNKEY"];

/** True where another writer held the lock for longer than the connection waits. */
export function isBusyError(error: unknown): boolean {
  return hasCode(error, "SQLITE_BUSY");
}

/** drizzle wraps the client's error, and the client wraps the engine's: the code may sit on any of them. */
function hasCode(error: unknown, prefix: string): boolean {
  for (let at: unknown = error; at instanceof Error; at = at.cause) {
    if ("code" in at && typeof at.code === "string" && at.code.startsWith(prefix)) return true;
  }
  return false;
}
