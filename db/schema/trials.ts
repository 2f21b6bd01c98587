import { sql } from "drizzle-orm";
import {
  check,
  foreignKey,
  index,
  integer,
  primaryKey,
  real,
  sqliteTable,
  text,
  uniqueIndex,
} from "drizzle-orm/sqlite-core";
import { bytes } from "./bytes.ts";
import { configurations, settings } from "./configurations.ts";
import { rooms, submitters } from "./identity.ts";
import { wholeNoise } from "./noise.ts";
import { erasedSha256, rowSha256 } from "./row-hash.ts";

/** Exact bytes uploaded, by SHA-256. They may be erased with a reason; the hash stays. */
export const files = sqliteTable(
  "files",
  {
    sha256: text("sha256").primaryKey(),
    size: integer("size").notNull(),
    bytes: bytes("bytes"),
    erasedAt: text("erased_at"),
    erasedReason: text("erased_reason"),
    erasedSha256: erasedSha256(),
    rowSha256: rowSha256(),
  },
  (t) => [
    check("files_whole_or_erased", sql`(${t.bytes} IS NULL) = (${t.erasedReason} IS NOT NULL)`),
    check("files_size", sql`${t.bytes} IS NULL OR length(${t.bytes}) = ${t.size}`),
  ],
);

/** A parsed log: columns of little-endian float64, time first (seconds after the first row), NaN where missing. */
export const series = sqliteTable(
  "series",
  {
    sha256: text("sha256").primaryKey(),
    rows: integer("rows").notNull(),
    /** JSON of the channels, in the order of their columns. */
    channelsJson: text("channels_json").notNull(),
    bytes: bytes("bytes"),
    erasedAt: text("erased_at"),
    erasedReason: text("erased_reason"),
    erasedSha256: erasedSha256(),
    rowSha256: rowSha256(),
  },
  (t) => [check("series_whole_or_erased", sql`(${t.bytes} IS NULL) = (${t.erasedReason} IS NOT NULL)`)],
);

export const trials = sqliteTable(
  "trials",
  {
    id: text("id").primaryKey(),
    submitter: text("submitter")
      .notNull()
      .references(() => submitters.id),
    configuration: text("configuration")
      .notNull()
      .references(() => configurations.id),
    setting: integer("setting")
      .notNull()
      .references(() => settings.id),
    room: text("room")
      .notNull()
      .references(() => rooms.id),
    /** Both as first sent; what holds now stands in the newest revision. */
    interest: text("interest").notNull(),
    aerosol: text("aerosol").notNull(),
    invented: integer("invented", { mode: "boolean" }).notNull(),
    /** HMAC of the content as sent: keyed, so that erased words cannot be found by guessing. */
    contentMac: bytes("content_mac").notNull(),
    idempotencyKey: text("idempotency_key"),
    createdAt: text("created_at").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [
    uniqueIndex("trials_content").on(t.submitter, t.contentMac), // a repeated request is not a second trial
    uniqueIndex("trials_idempotency").on(t.submitter, t.idempotencyKey), // one key names one request
    index("trials_setting").on(t.setting),
    index("trials_room").on(t.room),
    check(
      "trials_interest",
      sql`${t.interest} IN ('independent', 'lent_or_given', 'paid', 'maker_or_seller')`, // readers must see who paid
    ),
  ],
);

/** The hashed record of a trial: canonical JSON (RFC 8785) and its SHA-256. An amendment is another revision. */
export const trialRevisions = sqliteTable(
  "trial_revisions",
  {
    trial: text("trial")
      .notNull()
      .references(() => trials.id),
    revision: integer("revision").notNull(),
    json: text("json").notNull(),
    sha256: text("sha256").notNull(),
    at: text("at").notNull(),
    /** Who paid and what was in the air, as this revision has it: an amendment may put them right. */
    interest: text("interest").notNull(),
    aerosol: text("aerosol").notNull(),
    /** Why it was amended; NULL for the first. */
    reason: text("reason"),
    rowSha256: rowSha256(),
  },
  (t) => [
    primaryKey({ columns: [t.trial, t.revision] }),
    check("trial_revisions_from_1", sql`${t.revision} >= 1`),
    check("trial_revisions_reason", sql`(${t.reason} IS NULL) = (${t.revision} = 1)`), // readers must see why
    check(
      "trial_revisions_interest",
      sql`${t.interest} IN ('independent', 'lent_or_given', 'paid', 'maker_or_seller')`, // readers must see who paid
    ),
  ],
);

export const runs = sqliteTable(
  "runs",
  {
    trial: text("trial").notNull(),
    revision: integer("revision").notNull(),
    n: integer("n").notNull(),
    role: text("role").notNull(),
    counter: text("counter").notNull(),
    series: text("series")
      .notNull()
      .references(() => series.sha256),
    file: text("file").references(() => files.sha256),
    /** Set where the run is a stored natural run of another trial: one loss shared by several results. */
    fromTrial: text("from_trial"),
    fromRevision: integer("from_revision"),
    fromN: integer("from_n"),
    /** Unix ms of the first row where known, and the run's marks, windows, crops and conditions, ready to analyse again. */
    startMs: real("start_ms"),
    analysisJson: text("analysis_json").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [
    primaryKey({ columns: [t.trial, t.revision, t.n] }),
    foreignKey({ columns: [t.trial, t.revision], foreignColumns: [trialRevisions.trial, trialRevisions.revision] }),
    foreignKey({ columns: [t.fromTrial, t.fromRevision, t.fromN], foreignColumns: [t.trial, t.revision, t.n] }),
    check("runs_role", sql`${t.role} IN ('background', 'natural', 'total', 'full_log')`),
    check("runs_link_whole", sql`(${t.fromTrial} IS NULL) = (${t.fromN} IS NULL)`),
    index("runs_series").on(t.series), // whether others sent the same readings
    index("runs_from").on(t.fromTrial, t.fromRevision, t.fromN),
  ],
);

/**
 * A few windows of a run's scatter, as numbers that neither a factor nor an offset changes: readings that were sent before,
 * scaled, are found by them.
 */
export const fingerprints = sqliteTable(
  "fingerprints",
  {
    hash: integer("hash").notNull(),
    trial: text("trial").notNull(),
    revision: integer("revision").notNull(),
    n: integer("n").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [
    primaryKey({ columns: [t.hash, t.trial, t.revision, t.n] }),
    foreignKey({ columns: [t.trial, t.revision, t.n], foreignColumns: [runs.trial, runs.revision, runs.n] }),
  ],
);

/** What one method version says of one trial revision. It depends on that revision's own runs, room and parts alone. */
export const results = sqliteTable(
  "results",
  {
    trial: text("trial").notNull(),
    revision: integer("revision").notNull(),
    methodVersion: text("method_version").notNull(),
    /** The version's place in the method's changelog, from 1: which of two is newer is read off it. */
    methodOrdinal: integer("method_ordinal").notNull(),
    roomRevision: integer("room_revision").notNull(),
    json: text("json").notNull(),
    sha256: text("sha256").notNull(),
    at: text("at").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [
    primaryKey({ columns: [t.trial, t.revision, t.methodVersion] }), // one result per method version
    index("results_by_method").on(t.methodOrdinal, t.trial), // what a new version still has to analyse
    foreignKey({ columns: [t.trial, t.revision], foreignColumns: [trialRevisions.trial, trialRevisions.revision] }),
  ],
);

/** The figures of a result that pools are made of, one row a standard band. */
export const resultBands = sqliteTable(
  "result_bands",
  {
    trial: text("trial").notNull(),
    revision: integer("revision").notNull(),
    methodVersion: text("method_version").notNull(),
    band: text("band").notNull(),
    cadrM3PerH: real("cadr_m3_per_h").notNull(),
    cadrU: real("cadr_u").notNull(),
    cadrDof: real("cadr_dof"),
    kDifferencePerH: real("k_difference_per_h").notNull(),
    kDifferenceU: real("k_difference_u").notNull(),
    kDifferenceDof: real("k_difference_dof"),
    paired: integer("paired", { mode: "boolean" }).notNull(),
    kNaturalPerH: real("k_natural_per_h"),
    kNaturalU: real("k_natural_u"),
    /** The run the natural loss came from, trial/1/n: results that share one share its error. NULL where assumed. */
    naturalSource: text("natural_source"),
    /** Whether the band has a finding so serious that no reader should miss it. */
    serious: integer("serious", { mode: "boolean" }).notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [
    primaryKey({ columns: [t.trial, t.revision, t.methodVersion, t.band] }),
    foreignKey({
      columns: [t.trial, t.revision, t.methodVersion],
      foreignColumns: [results.trial, results.revision, results.methodVersion],
    }),
    check("result_bands_u", sql`${t.cadrU} > 0`), // a result without uncertainty would outweigh all others
    check("result_bands_band", sql`${t.band} IN ('0.1-1.0', '0.5-3.0', '5-11', 'mass')`),
  ],
);

/** What a trial's own readings say besides clean air: never what a maker states. One row a revision, also where it read nothing. */
export const trialMeasures = sqliteTable(
  "trial_measures",
  {
    trial: text("trial").notNull(),
    revision: integer("revision").notNull(),
    /** L_pA at 1 m; with bound 'upper' the level it stays under. */
    noiseDb: real("noise_db"),
    noiseU: real("noise_u"),
    noiseDof: real("noise_dof"),
    noiseBound: text("noise_bound", { enum: ["upper"] }),
    powerW: real("power_w"),
    /** NULL where none was stated. */
    powerU: real("power_u"),
    rowSha256: rowSha256(),
  },
  (t) => [
    primaryKey({ columns: [t.trial, t.revision] }),
    foreignKey({ columns: [t.trial, t.revision], foreignColumns: [trialRevisions.trial, trialRevisions.revision] }),
    check("trial_measures_noise", wholeNoise(t)),
    check("trial_measures_power", sql`${t.powerW} >= 0`),
  ],
);
