import { createClient } from "@libsql/client";
import { drizzle } from "drizzle-orm/libsql";
import type { Database } from "./database.ts";
import { isBusyError } from "./store-error.ts";

/**
 * An embedded database file: one writer whose jobs wait in a queue, readers on a client of their own (WAL lets them read
 * while it writes). synchronous FULL: an acknowledged write survives a power cut.
 */
export async function openEmbedded(url: string): Promise<Database> {
  const writer = createClient({ url, concurrency: 1 });
  const reader = createClient({ url });
  await writer.execute("PRAGMA journal_mode = WAL");
  await writer.execute("PRAGMA synchronous = FULL");
  const connection = drizzle(writer);
  let last: Promise<unknown> = Promise.resolve();

  async function run<T>(job: (c: typeof connection) => Promise<T>): Promise<T> {
    try {
      return await job(connection);
    } catch (error) {
      // After one SQLITE_BUSY (another process held the file) every later batch on the connection fails: take a new one.
      if (isBusyError(error)) await writer.reconnect();
      throw error;
    }
  }

  return {
    read: drizzle(reader),
    identity: reader,
    write(job) {
      const turn = last.then(() => run(job));
      last = turn.catch(() => undefined); // a failed job must not stop the queue
      return turn;
    },
    close() {
      reader.close();
      writer.close();
    },
  };
}
