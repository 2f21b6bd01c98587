import type { LibSQLDatabase } from "drizzle-orm/libsql";

export type Connection = LibSQLDatabase<Record<string, never>>;

/** A place to read from, and a way to write: on one machine writes wait in one queue, on a remote server they do not. */
export interface Database {
  readonly read: Connection;
  /** The same object for every handle on one database: what a process remembers of it hangs on this. */
  readonly identity: object;
  write<T>(job: (connection: Connection) => Promise<T>): Promise<T>;
  close(): void;
}
