import { noiseRows } from "./form-conditions.ts";
import { partRows } from "./form-configuration.ts";
import { type FieldName, MARK_EVENTS, MOST_COLUMNS, SLOTS, type Slot } from "./form-fields.ts";
import { FormReader } from "./form-reader.ts";

/**
 * The field that a pointer into the trial's JSON (`#/room/volume/value`) is about: the complaint stands beside it. Null where
 * there is none: it stands on top of the page. `trial` is what the pointer points into.
 */
export function fieldOfPointer(
  pointer: string,
  fields: ReadonlyMap<string, string>,
  trial: Readonly<Record<string, unknown>>,
): FieldName | null {
  const path = pointer
    .replace(/^#?\/?/, "")
    .split("/")
    .map((key) => key.replaceAll("~1", "/").replaceAll("~0", "~"));
  const [top = "", second = "", third = ""] = path;
  if (top === "runs") return ofRun(path.slice(1), trial, fields);
  if (top === "room") return ROOM[second] ?? "room.volume";
  if (top === "counters") return COUNTER[third] ?? (third === "smoothing" ? smoothing(path[3]) : "counter.model");
  if (top === "noise") return ofNoise(Number(second), third, fields);
  if (top === "filter_state") return second === "condition" ? "filter.condition" : "filter.hours";
  if (top === "aerosol") return second === "note" ? "aerosol.note" : "aerosol.kind";
  if (top === "configuration") return ofConfiguration(path.slice(1), trial, fields);
  if (top === "setting") return isDescribed(trial) ? "described.setting" : "configuration";
  return PLAIN[top] ?? null;
}

const PLAIN: Record<string, FieldName> = {
  performed_at: "performed_at",
  specimen: "specimen",
  power: "power",
  interest: "interest",
  trials_made: "trials_made",
  note: "note",
  invented: "invented",
};

const ROOM: Record<string, FieldName> = {
  label: "room.label",
  volume: "room.volume",
  length: "room.length",
  width: "room.width",
  height: "room.height",
  displaced_volume: "room.displaced",
  ventilation: "room.ventilation",
  mixing_fan: "room.mixing_fan",
  temperature: "room.temperature",
  relative_humidity: "room.humidity",
};

const COUNTER: Record<string, FieldName> = {
  principle: "counter.principle",
  model: "counter.model",
  position: "counter.position",
  sample_flow: "counter.sample_flow",
  dead_time: "counter.dead_time",
  max_concentration: "counter.max_concentration",
};

function smoothing(below: string | undefined): FieldName {
  return below === "time" ? "counter.smoothing_time" : "counter.smoothing";
}

/** A run is a slot that holds a log, or the natural decay of an earlier trial. */
function ofRun(
  [index = "", part = "", n = "", at = "", below = ""]: readonly string[],
  trial: Readonly<Record<string, unknown>>,
  fields: ReadonlyMap<string, string>,
): FieldName | null {
  const runs = Array.isArray(trial.runs)
    ? (trial.runs as { role: string; from_run?: string; marks?: unknown[] }[])
    : [];
  const run = runs[Number(index)];
  if (!run) return "full_log.file";
  if (run.from_run !== undefined) return "from_run";
  const slot = SLOTS.find((each) => each === run.role);
  if (!slot) return null;
  if (part === "columns") return ofColumn(slot, n, Number(at), n === "t" ? at : below, fields);
  if (part !== "marks") return `${slot}.file`;
  const marked = MARK_EVENTS.filter((event) => fields.get(`${slot}.mark.${event}`)?.trim());
  return `${slot}.mark.${marked[Number(n)] ?? "cleaner_on"}`;
}

/** Channels are sent in the order of the columns that hold readings. */
function ofColumn(slot: Slot, kind: string, channel: number, part: string, fields: ReadonlyMap<string, string>) {
  const uses = Array.from({ length: MOST_COLUMNS }, (_, n) => fields.get(`${slot}.columns.${n}.use`) ?? "none");
  const columns = uses.flatMap((use, n) => (use !== "none" && (use === "time") === (kind === "t") ? [n] : []));
  const column = columns[kind === "t" ? 0 : channel] ?? 0;
  const named = part === "from_um" ? "from" : part === "to_um" ? "to" : part === "unit" ? "unit" : "use";
  return `${slot}.columns.${column}.${named}` as const;
}

function ofNoise(index: number, part: string, fields: ReadonlyMap<string, string>): FieldName {
  const row = noiseRows(new FormReader(fields))[index] ?? 0;
  return `noise.${row}.${part === "background" || part === "distance" || part === "meter" || part === "quantity" ? part : "level"}`;
}

function isDescribed(trial: Readonly<Record<string, unknown>>): boolean {
  return typeof trial.configuration === "object";
}

function ofConfiguration(
  [part = "", index = "", below = "", last = ""]: readonly string[],
  trial: Readonly<Record<string, unknown>>,
  fields: ReadonlyMap<string, string>,
): FieldName {
  if (!isDescribed(trial) || part === "") return "configuration";
  if (part === "parts") {
    const row = partRows(new FormReader(fields))[Number(index)] ?? 0;
    return `described.parts.${row}.${PART[below] ?? "description"}`;
  }
  if (part === "costs")
    return last === "currency" ? "described.currency" : last === "date" ? "described.cost_date" : "described.cost";
  if (part === "settings") return below === "stated_flow" ? "described.setting_flow" : "described.setting";
  return DESCRIBED_FIELDS[part] ?? "described.title";
}

const PART: Record<string, "part" | "count" | "size" | "flow" | "grade"> = {
  part: "part",
  count: "count",
  size: "size",
  stated_flow: "flow",
  filter_grade: "grade",
};

const DESCRIBED_FIELDS: Record<string, FieldName> = {
  title: "described.title",
  kind: "described.kind",
  maker: "described.maker",
  model: "described.model",
  arrangement: "described.arrangement",
  plan_url: "described.plan_url",
  derived_from: "described.derived_from",
};
