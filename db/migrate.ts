import { fileURLToPath } from "node:url";
import { createClient } from "@libsql/client";
import { drizzle } from "drizzle-orm/libsql";
import { migrate } from "drizzle-orm/libsql/migrator";

/** The folder of migrations, found beside this file as it stands in db/ and as it is bundled to .build/. */
const folder = fileURLToPath(new URL("../db/migrations", import.meta.url));

/** Brings a database file, or a remote database by its URL, to the newest schema. */
export async function migrateDatabase(url: string, authToken?: string): Promise<void> {
  const client = createClient({ url, authToken });
  await migrate(drizzle(client), { migrationsFolder: folder });
  client.close();
}
