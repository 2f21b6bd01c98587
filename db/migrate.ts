import { fileURLToPath } from "node:url";
import { createClient } from "@libsql/client";
import { drizzle } from "drizzle-orm/libsql";
import { migrate } from "drizzle-orm/libsql/migrator";

import { sealOld } from "./fixity/sealed-rows.ts";

/** The folder of migrations, found beside this file as it stands in db/ and as it is bundled to .build/. */
export const MIGRATIONS_FOLDER = fileURLToPath(new URL("../db/migrations", import.meta.url));

/** Brings a database file, or a remote database by its URL, to the newest schema, and hashes rows from before hashes. */
export async function migrateDatabase(url: string, authToken?: string): Promise<void> {
  const client = createClient({ url, authToken });
  const connection = drizzle(client);
  await migrate(connection, { migrationsFolder: MIGRATIONS_FOLDER });
  await sealOld(connection);
  client.close();
}
