import { createClient } from "@libsql/client/web";
import { drizzle } from "drizzle-orm/libsql/web";
import type { Database } from "./database.ts";

/** libSQL over HTTP, for the Worker: one client a request, no queue; the server orders the writers. */
export function openRemote(url: string, authToken?: string): Database {
  const client = createClient({ url, authToken });
  const connection = drizzle(client);
  return { read: connection, write: (job) => job(connection), close: () => client.close() };
}
