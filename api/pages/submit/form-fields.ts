/**
 * Logs a test may have: `full_log` holds everything; or clean air, natural decay and cleaner on in a log each. Each slot that
 * holds a log makes one run, in this order.
 */
export const SLOTS = ["full_log", "background", "natural", "total"] as const;
export type Slot = (typeof SLOTS)[number];

/** What can be marked in a log, in the order it happens. */
export const MARK_EVENTS = ["aerosol_end", "cleaner_on", "cleaner_off"] as const;
export type MarkEvent = (typeof MARK_EVENTS)[number];

/** Rows of parts, and of noise readings, that the form can hold. */
export const MOST_PARTS = 40;
export const MOST_NOISE = 10;
/** Columns of a log that the form can correct: a log of more is read as guessed, or cut down before. */
export const MOST_COLUMNS = 64;

/**
 * Fields of a slot.
 * `file`: the log itself. `text`: the log pasted. `kept`: gzip and base64 of the log as it came with an earlier request, for
 * browsers without scripts, and `kept_name` its file's name. A file goes before pasted text, pasted text before what was kept.
 * `day_month`: `dmy` or `mdy`, where the dates of the log do not tell.
 */
export type SlotField = `${Slot}.${"file" | "text" | "kept" | "kept_name" | "day_month"}` | MarkField | ColumnField;

/** When something happened, in minutes after the log's first row: what the chart's axis shows. Blank: found by the analysis. */
export type MarkField = `${Slot}.mark.${MarkEvent}`;

/**
 * Column n of the log, from 0, as corrected. `name`: the header it was shown with, by which a correction of another log is
 * told. `use`: one of COLUMN_USES. `unit`: blank as the header says. `from`, `to`: particle sizes in µm. `cumulative`: none, above, below.
 */
export type ColumnField = `${Slot}.columns.${number}.${"name" | "use" | "unit" | "from" | "to" | "cumulative"}`;
export const COLUMN_USES = ["none", "time", "number", "mass", "raw"] as const;
export type ColumnUse = (typeof COLUMN_USES)[number];

/** Fields there is one of, with what each holds. Units of lengths and volumes follow `room.unit`. */
export const PLAIN_FIELDS = [
  "room.unit", // m or ft: unit of the sides, its cube that of volumes
  "room.length",
  "room.width",
  "room.height",
  "room.sides_within", // each side is right within this, at 95 %
  "room.displaced", // volume of what stands in the room
  "room.volume", // the air volume, instead of sides
  "room.volume_within", // the volume is right within this, at 95 %
  "room.label",
  "room.ventilation", // off, natural, mechanical, unknown
  "room.mixing_fan", // off, on, unknown
  "room.temperature",
  "room.temperature_unit", // Cel or [degF]
  "room.humidity", // %
  "counter.principle", // optical_counter, photometer, condensation_counter, other
  "counter.model",
  "counter.position",
  "counter.sample_flow", // L/min
  "counter.dead_time", // µs
  "counter.max_concentration", // 1/cm³
  "counter.smoothing", // blank: not known; none, lag, moving_mean
  "counter.smoothing_time", // s
  "from_run", // trl-…/runs/0: a natural decay of an earlier trial
  "find", // words to search configurations by
  "configuration", // what was tested: `chosenValue(id, setting)` of a stored one, or DESCRIBED
  "described.title",
  "described.kind", // user_built, commercial
  "described.maker",
  "described.model",
  "described.arrangement",
  "described.setting", // the one tested at; blank where it has only one way to run
  "described.setting_flow", // air flow its maker states for the setting
  "described.setting_flow_unit", // m3/h or [cft_i]/min
  "described.cost", // of the whole
  "described.currency", // ISO 4217
  "described.cost_date", // YYYY-MM-DD
  "described.plan_url",
  "described.derived_from", // cfg-…
  "described.compared", // yes: what is similar was shown
  "performed_at", // YYYY-MM-DDThh:mm, local time
  "performed_offset", // +02:00
  "aerosol.kind",
  "aerosol.note",
  "power", // W
  "interest", // who paid; required, nothing preselected
  "trials_made",
  "specimen",
  "filter.hours",
  "filter.condition", // new, used, cleaned, loaded
  "note",
  "invented", // yes
  "consent", // yes: to CC0 1.0; required to publish
  "key", // mote_…
  "handle", // a name to stand beside a new key's tests
  "do", // the button: one of ACTIONS
] as const;
export type PlainField = (typeof PLAIN_FIELDS)[number];

/** Row n of the parts, from 0; rows without a description are left out. */
export type PartField = `described.parts.${number}.${
  | "part" // fan, filter, housing, ioniser, other
  | "count"
  | "description"
  | "size"
  | "flow" // air flow its maker states
  | "flow_unit" // m3/h or [cft_i]/min
  | "grade_system" // MERV, ISO16890, EN1822, other
  | "grade"}`;

/** Noise reading n, from 0; rows without a level are left out. Levels in dB(A). */
export type NoiseField = `noise.${number}.${
  | "quantity" // L_pA, L_WA
  | "level"
  | "background"
  | "distance"
  | "distance_unit" // m or ft
  | "meter"}`; // class_1, class_2, phone, unknown, stated_by_maker

export type FieldName = PlainField | SlotField | PartField | NoiseField;

/** What the form's buttons ask for: another look, a key, a search, more rows, or storing the test. */
export const ACTIONS = ["preview", "key", "find", "rows", "publish"] as const;
export type Action = (typeof ACTIONS)[number];

/** The value of `configuration` that stands for the fields `described.…`. */
export const DESCRIBED = "described";

/** The value of `configuration` that stands for a stored one at one of its settings. */
export function chosenValue(id: string, setting: string): string {
  return setting === "" ? id : `${id} ${setting}`;
}

/** A stored configuration and its setting from a value of `configuration`; null for anything else. */
export function chosenOf(value: string): { readonly id: string; readonly setting: string | null } | null {
  const match = /^(cfg-\S+)(?: (.*))?$/su.exec(value.trim());
  return match ? { id: match[1]!, setting: match[2] ?? null } : null;
}

/** The id of a field's control. */
export function idOf(name: FieldName): string {
  return `f-${name.replaceAll(".", "-")}`;
}
