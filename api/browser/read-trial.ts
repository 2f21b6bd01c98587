import type { Dimension } from "../../analysis/units.ts";
import type { SentTrial } from "../trial-input.ts";
import { isBandName } from "../wire/band-names.ts";
import { isPlain } from "../wire/is-plain.ts";
import { inBaseUnit, notNegative, positive, type QuantityIn } from "../wire/stated-quantity.ts";
import type { CounterIn, RoomIn, RunIn } from "../wire/trial.ts";
import {
  either,
  fields,
  list,
  number,
  oneOf,
  optional,
  otherwise,
  plainText,
  type Read,
  refuse,
  someFields,
  string,
} from "./shape.ts";

/**
 * The part of a trial that its analysis reads, as the schemas of `api/wire/` give it, of runs that are files.
 * @throws Unread where the server has to be asked: something does not fit, or is of another trial
 */
export function readTrial(sent: unknown): SentTrial {
  return trialOf(sent);
}

function quantity(dimension: Dimension, check: (value: number) => string | null = () => null): Read<QuantityIn> {
  const stated = fields<{ value: number; unit: string; u: number | undefined }>({
    value: number(),
    unit: string(40),
    u: optional(number((u) => u >= 0)),
  });
  return (value) => inBaseUnit(stated(value), dimension, check, refuse) ?? refuse();
}

const instant = string(40, isInstant);
const runTime = either(number(), (value) => {
  const text = typeof value === "string" ? value.trim() : "";
  return text.length > 0 && text.length <= 40 ? text : refuse();
});

const ventilation = oneOf("off", "natural", "mechanical", "unknown");
const fanState = oneOf("off", "on", "unknown");
const phase = oneOf("background", "natural", "total");

const roomFields = fields<RoomIn>({
  label: optional(plainText(80)),
  volume: optional(quantity("volume", positive)),
  length: optional(quantity("length", positive)),
  width: optional(quantity("length", positive)),
  height: optional(quantity("length", positive)),
  displaced_volume: optional(quantity("volume", notNegative)),
  ventilation: otherwise(ventilation, "unknown"),
  mixing_fan: otherwise(fanState, "unknown"),
  temperature: optional(quantity("temperature")),
  relative_humidity: optional(quantity("humidity", notNegative)),
});

/** Either the volume, or three sides and perhaps what they hold besides air. */
export function readRoom(value: unknown): RoomIn {
  const read = roomFields(value);
  const sides = [read.length, read.width, read.height].filter((side) => side !== undefined).length;
  if (read.volume ? sides > 0 || read.displaced_volume : sides !== 3) refuse();
  return read;
}

const counter = fields<CounterIn>({
  id: otherwise(plainText(40), "c1"),
  principle: otherwise(oneOf("optical_counter", "photometer", "condensation_counter", "other"), "other"),
  model: optional(plainText(80)),
  position: optional(plainText(120)),
  sample_flow: optional(quantity("flow", positive)),
  dead_time: optional(quantity("time", positive)),
  max_concentration: optional(quantity("number concentration", positive)),
  smoothing: optional(fields({ kind: oneOf("lag", "moving_mean"), time: quantity("time", notNegative) })),
});

const particleSize = optional(
  either(
    number((um) => um >= 1e-4 && um <= 1e4),
    (value) => (value === null ? null : refuse()),
  ),
);

type Columns = NonNullable<RunIn["columns"]>;

const columns = fields<Columns>({
  t: optional(
    fields<NonNullable<Columns["t"]>>({
      column: string(200),
      unit: optional(oneOf("s", "min", "h", "datetime")),
      day_month: optional(oneOf("dmy", "mdy")),
    }),
  ),
  channels: list(
    fields<Columns["channels"][number]>({
      column: string(200),
      id: optional(string(60, (id) => id.length > 0 && isPlain(id) && !isBandName(id))),
      quantity: oneOf("number", "mass", "raw"),
      unit: optional(string(40, isPlain)),
      from_um: particleSize,
      to_um: particleSize,
      cumulative: optional(oneOf("none", "above", "below")),
      ceiling: optional(number((value) => value > 0)),
    }),
    1,
    64,
  ),
});

const run = fields<RunIn>({
  role: oneOf("background", "natural", "total", "full_log"),
  counter: optional(plainText(40)),
  file: plainText(80),
  series: optional(refuse),
  from_run: optional(refuse),
  columns: optional(columns),
  performed_at: optional(instant),
  mixing_fan: optional(fanState),
  ventilation: optional(ventilation),
  from: optional(runTime),
  to: optional(runTime),
  marks: otherwise(
    list(
      fields<RunIn["marks"][number]>({
        event: oneOf("aerosol_end", "cleaner_on", "cleaner_off", "setting_changed"),
        t: runTime,
      }),
      0,
      40,
    ),
    [],
  ),
  windows: otherwise(
    list(
      fields<RunIn["windows"][number]>({
        phase,
        n: optional(number((n) => Number.isInteger(n) && n >= 0 && n <= 40)),
        from: runTime,
        to: runTime,
      }),
      0,
      40,
    ),
    [],
  ),
});

const flow = optional(quantity("flow", positive));

const statedFlows = someFields({
  parts: list(
    someFields({
      part: oneOf("fan", "filter", "housing", "ioniser", "other"),
      count: number((count) => Number.isInteger(count) && count >= 1 && count <= 1000),
      stated_flow: flow,
    }),
    1,
    40,
  ),
  settings: otherwise(list(someFields({ label: plainText(60), stated_flow: flow }), 0, 20), []),
});

const trialOf = someFields<SentTrial>({
  room: readRoom,
  counters: optional(list(counter, 1, 16)),
  runs: list(run, 1, 32),
  performed_at: optional(instant),
  configuration: optional(either(string(40), statedFlows)),
  setting: optional(string(60)),
});

/** RFC 3339 with a zone, of a day that the calendar has. */
function isInstant(text: string): boolean {
  const match = /^(\d{4}-\d\d-\d\d)T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(\.\d+)?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/.exec(text);
  if (!match) return false;
  const day = new Date(`${match[1]}T00:00Z`);
  return Number.isFinite(day.getTime()) && day.toISOString().startsWith(match[1]!);
}
