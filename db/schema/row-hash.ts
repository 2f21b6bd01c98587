import { text } from "drizzle-orm/sqlite-core";

/** SHA-256 of the row as it was written (db/seal.ts). NULL only in rows from before there was one, until they are sealed. */
export const rowSha256 = () => text("row_sha256");

/** The same over when and why content was erased; NULL while it is there. */
export const erasedSha256 = () => text("erased_sha256");
