import { sql } from "drizzle-orm";
import { check, integer, primaryKey, real, sqliteTable, text, unique, uniqueIndex } from "drizzle-orm/sqlite-core";
import { bytes } from "./bytes.ts";
import { erasedSha256, rowSha256 } from "./row-hash.ts";

/**
 * Personal words: note, room label, position, specimen, handle, file name. Hashed records hold only the digest,
 * SHA-256(salt ‖ text); erasing text and salt leaves every hash whole and the words unguessable.
 */
export const words = sqliteTable(
  "words",
  {
    digest: text("digest").primaryKey(),
    salt: bytes("salt"),
    text: text("text"),
    erasedAt: text("erased_at"),
    erasedReason: text("erased_reason"),
    erasedSha256: erasedSha256(),
    rowSha256: rowSha256(),
  },
  (t) => [
    // A word is either all there, or erased with a reason: nothing in between can be explained to a reader.
    check("words_whole_or_erased", sql`(${t.text} IS NULL) = (${t.erasedReason} IS NOT NULL)`),
    check("words_salt_with_text", sql`(${t.salt} IS NULL) = (${t.text} IS NULL)`),
  ],
);

export const submitters = sqliteTable("submitters", {
  id: text("id").primaryKey(),
  handleDigest: text("handle_digest").references(() => words.digest),
  createdAt: text("created_at").notNull(),
  rowSha256: rowSha256(),
});

/** A key is shown once; only its HMAC under KEY_SECRET is kept, so a stolen database opens nothing. */
export const keys = sqliteTable(
  "keys",
  {
    prefix: text("prefix").primaryKey(),
    submitter: text("submitter")
      .notNull()
      .references(() => submitters.id),
    mac: bytes("mac").notNull(),
    createdAt: text("created_at").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [
    unique("keys_mac").on(t.mac), // two keys with one MAC would be one key
    check("keys_mac_length", sql`length(${t.mac}) = 32`), // HMAC-SHA-256
  ],
);

export const keyRevocations = sqliteTable("key_revocations", {
  prefix: text("prefix")
    .primaryKey() // a key is revoked once
    .references(() => keys.prefix),
  at: text("at").notNull(),
  rowSha256: rowSha256(),
});

/** A room of one submitter. The label itself is among the words; its MAC keeps it unique even when erased. */
export const rooms = sqliteTable(
  "rooms",
  {
    id: text("id").primaryKey(),
    submitter: text("submitter")
      .notNull()
      .references(() => submitters.id),
    labelMac: bytes("label_mac"),
    labelDigest: text("label_digest").references(() => words.digest),
    createdAt: text("created_at").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [
    // One label names one room of one submitter, so that its trials share one volume error. NULL: an unnamed room.
    uniqueIndex("rooms_label").on(t.submitter, t.labelMac),
    check("rooms_label_whole", sql`(${t.labelMac} IS NULL) = (${t.labelDigest} IS NULL)`),
  ],
);

/** What is known of a room's air volume, newest revision last; a correction never changes an older row. */
export const roomRevisions = sqliteTable(
  "room_revisions",
  {
    room: text("room")
      .notNull()
      .references(() => rooms.id),
    revision: integer("revision").notNull(),
    volumeM3: real("volume_m3").notNull(),
    volumeU: real("volume_u").notNull(),
    /** How the volume came about, for readers: given or from L·W·H, u stated or assumed. */
    basis: text("basis", { enum: ["stated", "measured_sides", "estimate"] }).notNull(),
    at: text("at").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [
    primaryKey({ columns: [t.room, t.revision] }),
    check("room_revisions_volume", sql`${t.volumeM3} > 0`), // CADR scales with it
    check("room_revisions_u", sql`${t.volumeU} >= 0`),
    check("room_revisions_from_1", sql`${t.revision} >= 1`),
  ],
);
