import { createClient } from "@libsql/client/web";
import { drizzle } from "drizzle-orm/libsql/web";
import type { Database } from "./database.ts";

/** libSQL over HTTP, for the Worker: one client a request, no queue; the server orders the writers. */
export function openRemote(url: string, authToken?: string): Database {
  const client = createClient({ url, authToken });
  const connection = drizzle(client);
  const identity = IDENTITIES.get(url) ?? {};
  IDENTITIES.set(url, identity);
  return { read: connection, identity, write: (job) => job(connection), close: () => client.close() };
}

/** Clients come and go with requests; what they reach stays, one to a URL. */
const IDENTITIES = new Map<string, object>();
