import { sql } from "drizzle-orm";
import { check, index, integer, primaryKey, real, sqliteTable, text, unique } from "drizzle-orm/sqlite-core";
import { settings } from "./configurations.ts";
import { wholeNoise } from "./noise.ts";
import { rowSha256 } from "./row-hash.ts";
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
        "trial-doubted",
        "trial-held",
        "trial-listed",
        "trial-amended",
        "trial-questioned",
        "question-answered",
        "method-adopted",
        "method-applied",
        "configuration-stored",
        "setting-added",
        "room-stored",
        "configuration-revised",
        "configuration-merged",
        "room-corrected",
        "spread-learnt",
        "spread-applied",
      ],
    }).notNull(),
    subject: text("subject").notNull(),
    /** Submitter id, or "operator". */
    actor: text("actor").notNull(),
    reason: text("reason"),
    rowSha256: rowSha256(),
  },
  (t) => [index("events_subject").on(t.subject, t.seq)],
);

/**
 * The method version that readers see, newest row last: a newer one is adopted when every trial that can be analysed again
 * has its result. Row 1 comes with the schema.
 */
export const methodAdoptions = sqliteTable(
  "method_adoptions",
  {
    /** The version's place in the method's changelog, from 1: versions are compared by it. */
    ordinal: integer("ordinal").primaryKey(),
    version: text("version").notNull(),
    at: text("at").notNull(),
    /** NULL for the first row alone: it held before anything happened. */
    event: integer("event").references(() => events.seq),
    rowSha256: rowSha256(),
  },
  (t) => [
    unique("method_adoptions_version").on(t.version), // a version has one place
    check("method_adoptions_event", sql`(${t.event} IS NULL) = (${t.ordinal} = 1)`), // a rebuild must know when it began to hold
  ],
);

/** How much laboratories differ, relative: one value for the registry; the newest row holds. Row 1 comes with the schema. */
export const spreads = sqliteTable(
  "spreads",
  {
    id: integer("id").primaryKey(),
    at: text("at").notNull(),
    relative: real("relative").notNull(),
    dof: real("dof").notNull(),
    source: text("source", { enum: ["assumed", "learnt"] }).notNull(),
    /** Entries it was learnt from; 0 where it is assumed. */
    entries: integer("entries").notNull(),
    /** NULL for the first row alone: it held before anything happened. */
    event: integer("event").references(() => events.seq),
    rowSha256: rowSha256(),
  },
  (t) => [
    check("spreads_relative", sql`${t.relative} >= 0`), // REML may find that laboratories do not differ
    check("spreads_dof", sql`${t.dof} > 0 AND ${t.dof} <= 30`), // a larger d₀ would outweigh any entry's own rooms
    check("spreads_source", sql`${t.source} IN ('assumed', 'learnt')`),
    check("spreads_event", sql`(${t.event} IS NULL) = (${t.id} = 1)`), // a rebuild must know when it began to hold
  ],
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
    rowSha256: rowSha256(),
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
    /** Trials with a serious finding in this band. */
    serious: integer("serious").notNull(),
    interestJson: text("interest_json").notNull(),
    /** Trials by kind of aerosol: more than one kind is a mixed entry. */
    aerosolsJson: text("aerosols_json").notNull(),
    /** The part of u that scales with the true value, as a share of it: intervals and probabilities are made with it. */
    relativeU: real("relative_u"),
    /** Where the next laboratory's figure is expected: the 95 % interval, and what it is made of. */
    predictionLow: real("prediction_low"),
    predictionHigh: real("prediction_high"),
    predictionU: real("prediction_u"),
    predictionDof: real("prediction_dof"),
    predictionRelativeU: real("prediction_relative_u"),
    /** SD between laboratories, relative to the CADR; with I² and Cochran's Q, which need two laboratories. */
    tau: real("tau"),
    i2: real("i2"),
    q: real("q"),
    /** Largest change of the CADR when one submitter is left out, m³/h, with its sign; NULL with one submitter. */
    leftOutChangeM3PerH: real("left_out_change_m3_per_h"),
    /** The spread between laboratories it was pooled with. */
    spread: integer("spread")
      .notNull()
      .references(() => spreads.id),
    /** L_pA at 1 m as its trials read it, energies averaged; with bound 'upper' the level it stays under. */
    noiseDb: real("noise_db"),
    noiseU: real("noise_u"),
    noiseDof: real("noise_dof"),
    noiseBound: text("noise_bound", { enum: ["upper"] }),
    noiseTrials: integer("noise_trials").notNull(),
    powerW: real("power_w"),
    powerU: real("power_u"),
    powerDof: real("power_dof"),
    powerTrials: integer("power_trials").notNull(),
    /** SHA-256 of the JSON array of the sorted members, trial/revision/method version/room revision: what the figure was made from. */
    membersHash: text("members_hash").notNull(),
    methodVersion: text("method_version").notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.entry, t.basis, t.seq] }),
    index("pooled_by_seq").on(t.seq),
    check("pooled_whole", sql`(${t.cadrM3PerH} IS NULL) = (${t.trials} = 0)`),
    check("pooled_noise", wholeNoise(t)),
    check("pooled_power", sql`(${t.powerW} IS NULL) = (${t.powerTrials} = 0)`),
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
