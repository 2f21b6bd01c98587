import { sql } from "drizzle-orm";
import {
  type AnySQLiteColumn,
  check,
  index,
  integer,
  primaryKey,
  sqliteTable,
  text,
  unique,
} from "drizzle-orm/sqlite-core";
import { submitters } from "./identity.ts";
import { rowSha256 } from "./row-hash.ts";

/** The parts that move or clean air and their arrangement: what a CADR is a CADR of. */
export const configurations = sqliteTable(
  "configurations",
  {
    id: text("id").primaryKey(),
    /** SHA-256 of the canonical JSON of kind, maker, model, arrangement and parts. */
    identitySha256: text("identity_sha256").notNull(),
    kind: text("kind", { enum: ["user_built", "commercial"] }).notNull(),
    derivedFrom: text("derived_from").references((): AnySQLiteColumn => configurations.id),
    submitter: text("submitter")
      .notNull()
      .references(() => submitters.id),
    createdAt: text("created_at").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [
    // Equal parts are one configuration whoever sends them: otherwise their trials would never meet in one pool.
    unique("configurations_identity").on(t.identitySha256),
    check("configurations_kind", sql`${t.kind} IN ('user_built', 'commercial')`),
    check("configurations_not_own_parent", sql`${t.derivedFrom} IS NULL OR ${t.derivedFrom} <> ${t.id}`),
  ],
);

/** The words of a configuration (title, descriptions, costs, plan): a revision corrects them, never the identity. */
export const configurationRevisions = sqliteTable(
  "configuration_revisions",
  {
    configuration: text("configuration")
      .notNull()
      .references(() => configurations.id),
    revision: integer("revision").notNull(),
    title: text("title").notNull(),
    json: text("json").notNull(),
    sha256: text("sha256").notNull(),
    at: text("at").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [primaryKey({ columns: [t.configuration, t.revision] })],
);

/** An operator found two configurations to be one: the old id keeps answering and points on. */
export const merges = sqliteTable(
  "merges",
  {
    configuration: text("configuration")
      .primaryKey() // merged once; a chain is followed
      .references(() => configurations.id),
    into: text("merged_into")
      .notNull()
      .references(() => configurations.id),
    reason: text("reason").notNull(),
    at: text("at").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [check("merges_into_other", sql`${t.into} <> ${t.configuration}`)],
);

/** A speed or mode of a configuration; the empty label is that of a thing with one way to run. */
export const settings = sqliteTable(
  "settings",
  {
    id: integer("id").primaryKey(),
    configuration: text("configuration")
      .notNull()
      .references(() => configurations.id),
    label: text("label").notNull(),
    /** The label folded as identities are (NFC, trimmed, single-spaced, case-folded). */
    folded: text("folded").notNull(),
    /** What the maker or builder states of it: noise, power, flow. Never mixed with what was measured. */
    statedJson: text("stated_json").notNull(),
    at: text("at").notNull(),
    rowSha256: rowSha256(),
  },
  // "Low" and "low " are one setting: two would split a pool.
  (t) => [unique("settings_label").on(t.configuration, t.folded)],
);

/** What a merge moved: trials of the one setting count in entries of the other. A chain is followed. */
export const settingMoves = sqliteTable(
  "setting_moves",
  {
    from: integer("from_setting")
      .primaryKey() // moved once
      .references(() => settings.id),
    to: integer("to_setting")
      .notNull()
      .references(() => settings.id),
  },
  (t) => [check("setting_moves_to_other", sql`${t.to} <> ${t.from}`), index("setting_moves_to").on(t.to)],
);

/** Derived: what configurations are found alike by (a part, the maker and model, the arrangement, a word of the title). */
export const configurationTraits = sqliteTable(
  "configuration_traits",
  {
    trait: text("trait").notNull(),
    configuration: text("configuration")
      .notNull()
      .references(() => configurations.id),
  },
  (t) => [primaryKey({ columns: [t.trait, t.configuration] }), index("configuration_traits_of").on(t.configuration)],
);
