import { sql } from "drizzle-orm";
import { check, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { bytes } from "./bytes.ts";

/**
 * What stored rows hashed to when they were written: SHA-256 of the canonical JSON (RFC 8785) of the row or rows that a kind
 * and key name, erasable content by its own hash. `npm run verify` reads all rows again and compares.
 */
export const fixity = sqliteTable(
  "fixity",
  {
    kind: text("kind").notNull(),
    key: text("key").notNull(),
    sha256: text("sha256").notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.kind, t.key] }), // written once: what is hashed never changes
    check("fixity_sha256", sql`length(${t.sha256}) = 64`),
  ],
);

/** Derived: pictures of pinned results, drawn once. They may be dropped at any time and are drawn again. */
export const pictures = sqliteTable(
  "pictures",
  {
    /** The path of the pinned result. */
    pin: text("pin").notNull(),
    kind: text("kind", { enum: ["light", "dark"] }).notNull(),
    png: bytes("png").notNull(),
    sha256: text("sha256").notNull(),
    at: text("at").notNull(),
  },
  (t) => [primaryKey({ columns: [t.pin, t.kind] }), check("pictures_kind", sql`${t.kind} IN ('light', 'dark')`)],
);
