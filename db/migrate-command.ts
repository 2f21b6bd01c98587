import { mkdirSync } from "node:fs";
import { migrateDatabase } from "./migrate.ts";

/* `npm run migrate`: brings the database at LIBSQL_URL to the newest schema; the way for the Worker's remote one. */
const url = process.env.LIBSQL_URL ?? "file:.data/motefall.db";
if (url === "file:.data/motefall.db") mkdirSync(".data", { recursive: true });
await migrateDatabase(url, process.env.LIBSQL_AUTH_TOKEN || undefined);
console.log(`${url.replace(/\?.*/, "")} has the newest schema`);
