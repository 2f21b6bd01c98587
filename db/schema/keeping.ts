import { sql } from "drizzle-orm";
import { check, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { bytes } from "./bytes.ts";
import { rowSha256 } from "./row-hash.ts";

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
    rowSha256: rowSha256(),
  },
  (t) => [primaryKey({ columns: [t.pin, t.kind] }), check("pictures_kind", sql`${t.kind} IN ('light', 'dark')`)],
);
