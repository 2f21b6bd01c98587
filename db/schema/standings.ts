import { sql } from "drizzle-orm";
import { check, index, integer, primaryKey, real, sqliteTable, text, unique } from "drizzle-orm/sqlite-core";
import { settings } from "./configurations.ts";
import { trials } from "./trials.ts";

/** The one log of everything that happened: what readers see of a record's history, and what a rebuild replays. */
export const events = sqliteTable(
  "events",
  {
    seq: integer("seq").primaryKey({ autoIncrement: true }), // never reused, so that "as of seq" stays true
    at: text("at").notNull(),
    kind: text("kind", {
      enum: [
        "trial-stored",
        "trial-withdrawn",
        "trial-held",
        "trial-listed",
        "configuration-stored",
        "setting-added",
        "room-stored",
        "configuration-merged",
      ],
    }).notNull(),
    subject: text("subject").notNull(),
    /** Submitter id, or "operator". */
    actor: text("actor").notNull(),
    reason: text("reason"),
  },
  (t) => [index("events_subject").on(t.subject, t.seq)],
);

/** Configuration × setting × band: what the leaderboard ranks. Invented and real trials are never pooled together. */
export const entries = sqliteTable(
  "entries",
  {
    id: text("id").primaryKey(),
    setting: integer("setting")
      .notNull()
      .references(() => settings.id),
    band: text("band").notNull(),
    invented: integer("invented", { mode: "boolean" }).notNull(),
    createdAt: text("created_at").notNull(),
  },
  (t) => [
    unique("entries_one").on(t.setting, t.band, t.invented),
    check("entries_band", sql`${t.band} IN ('0.1-1.0', '0.5-3.0', '5-11', 'mass')`),
  ],
);

/** Derived: whether a trial counts, replayed from the events by a rebuild. */
export const trialStates = sqliteTable(
  "trial_states",
  {
    trial: text("trial")
      .primaryKey()
      .references(() => trials.id),
    state: text("state", { enum: ["listed", "pending", "questioned", "withdrawn"] }).notNull(),
    seq: integer("seq")
      .notNull()
      .references(() => events.seq),
  },
  (t) => [check("trial_states_state", sql`${t.state} IN ('listed', 'pending', 'questioned', 'withdrawn')`)],
);

/**
 * Derived: each pooled figure an entry ever had, by the event that changed it. The newest is the current one; its seq is
 * also what a writer compares before it adds the next.
 */
export const pooled = sqliteTable(
  "pooled",
  {
    entry: text("entry")
      .notNull()
      .references(() => entries.id),
    basis: text("basis", { enum: ["all", "independent", "paired", "independent_paired"] }).notNull(),
    seq: integer("seq")
      .notNull()
      .references(() => events.seq),
    /** NULL where no trial counts any more. */
    cadrM3PerH: real("cadr_m3_per_h"),
    u: real("u"),
    dof: real("dof"),
    low: real("low"),
    high: real("high"),
    trials: integer("trials").notNull(),
    rooms: integer("rooms").notNull(),
    submitters: integer("submitters").notNull(),
    unpaired: integer("unpaired").notNull(),
    interestJson: text("interest_json").notNull(),
    /** SHA-256 over the sorted members, so that a figure can be traced to its trials. */
    membersHash: text("members_hash").notNull(),
    methodVersion: text("method_version").notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.entry, t.basis, t.seq] }),
    index("pooled_by_seq").on(t.seq),
    check("pooled_whole", sql`(${t.cadrM3PerH} IS NULL) = (${t.trials} = 0)`),
  ],
);

/** Derived: the current pooled row of each entry and basis, kept by a trigger, indexed for the leaderboard. */
export const standings = sqliteTable(
  "standings",
  {
    entry: text("entry")
      .notNull()
      .references(() => entries.id),
    basis: text("basis").notNull(),
    band: text("band").notNull(),
    seq: integer("seq").notNull(),
    cadrM3PerH: real("cadr_m3_per_h").notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.entry, t.basis] }),
    index("standings_by_cadr").on(t.band, t.basis, sql`${t.cadrM3PerH} DESC`, t.entry),
  ],
);
