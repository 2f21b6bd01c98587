import type { FieldName, PlainField, Slot } from "./form-fields.ts";

/** What stands above a field, and before a complaint about it. */
export function fieldWords(name: FieldName): string {
  const [top = "", second = "", third = "", fourth = ""] = name.split(".");
  if (isSlot(top)) {
    if (second === "mark") return sentence(`${MARK_OWNERS[top]}${MARK_WORDS[third]}, min`);
    if (second === "columns") return `Column ${Number(third) + 1}: ${COLUMN_WORDS[fourth]}`;
    return second === "file"
      ? SLOT_WORDS[top]
      : second === "day_month"
        ? "Dates with day and month in doubt"
        : "Rows of the log, with the header";
  }
  if (top === "noise") return NOISE_WORDS[third]!;
  if (second === "parts") return PART_WORDS[fourth]!;
  return PLAIN_WORDS[name as PlainField];
}

function sentence(words: string): string {
  return `${words[0]!.toUpperCase()}${words.slice(1)}`;
}

/** The field with what it belongs to, where its own words are the same in several rows. */
export function fieldInPlace(name: FieldName): string {
  const [, row] = /^(?:noise|described\.parts)\.(\d+)\./.exec(name) ?? [];
  const owner = name.startsWith("noise.") ? "Noise" : "Part";
  return row === undefined ? fieldWords(name) : `${owner} ${Number(row) + 1}: ${fieldWords(name)}`;
}

/** Fields in the order of the page. */
export function byPlace(a: FieldName, b: FieldName): number {
  return placeOf(a) - placeOf(b);
}

function placeOf(name: FieldName): number {
  const found = PLACES.findIndex((place) => place.test(name));
  return 1000 * (found < 0 ? PLACES.length : found) + Math.max(0, PLAIN_ORDER.indexOf(name as PlainField));
}

const SLOT_WORDS: Record<Slot, string> = {
  full_log: "One log of everything",
  background: "Log of the clean air before",
  natural: "Log of the natural decay, cleaner off",
  total: "Log with the cleaner on",
};

function isSlot(text: string): text is Slot {
  return Object.hasOwn(SLOT_WORDS, text);
}

const MARK_WORDS: Record<string, string> = {
  aerosol_end: "aerosol fed until",
  cleaner_on: "cleaner on from",
  cleaner_off: "cleaner off from",
};

const MARK_OWNERS: Record<Slot, string> = {
  full_log: "",
  background: "",
  natural: "Natural decay: ",
  total: "Cleaner on: ",
};

const COLUMN_WORDS: Record<string, string> = {
  name: "name",
  use: "what it holds",
  unit: "unit",
  from: "from this size, µm",
  to: "to this size, µm",
  cumulative: "which it counts",
};

const NOISE_WORDS: Record<string, string> = {
  quantity: "What was read",
  level: "Level, dB(A)",
  background: "With the cleaner off, dB(A)",
  distance: "Distance from the cleaner",
  distance_unit: "Unit of the distance",
  meter: "Read by",
};

const PART_WORDS: Record<string, string> = {
  part: "What",
  count: "How many (blank: 1)",
  description: "Description",
  size: "Size",
  flow: "Air flow its maker states",
  flow_unit: "Unit of the air flow",
  grade_system: "System of the grade",
  grade: "Grade of a filter",
};

const PLAIN_WORDS: Record<PlainField, string> = {
  "room.unit": "Written in",
  "room.length": "Length",
  "room.width": "Width",
  "room.height": "Height",
  "room.volume": "Volume of its air",
  "room.sides_within": "Each side is right within ±",
  "room.volume_within": "The volume is right within ±",
  "room.displaced": "Taken up by furniture",
  find: "Find it by a word of its name",
  configuration: "What was tested",
  "described.title": "Name it",
  "described.kind": "Kind",
  "described.maker": "Maker",
  "described.model": "Model",
  "described.arrangement": "Arrangement",
  "described.setting": "Setting it was tested at",
  "described.setting_flow": "Air flow its maker states there",
  "described.setting_flow_unit": "Unit of the air flow",
  "described.cost": "Price of the whole",
  "described.currency": "Currency, as three letters",
  "described.cost_date": "Price on the day",
  "described.plan_url": "Address of a plan",
  "described.derived_from": "Derived from",
  "described.compared": "Compared",
  interest: "Who paid",
  performed_at: "Date and time, local",
  performed_offset: "Local time is",
  "aerosol.kind": "In the air",
  "aerosol.note": "More about it",
  "room.label": "Your name for the room",
  "room.ventilation": "Ventilation",
  "room.mixing_fan": "A fan that mixes the air",
  "room.temperature": "Temperature",
  "room.temperature_unit": "Unit of the temperature",
  "room.humidity": "Relative humidity, %",
  "counter.principle": "How it counts",
  "counter.model": "Model of the counter",
  "counter.position": "Where it stood",
  "counter.sample_flow": "Sample flow, L/min",
  "counter.dead_time": "Dead time, µs",
  "counter.max_concentration": "Most it counts, per cm³",
  "counter.smoothing": "Smoothing",
  "counter.smoothing_time": "Smoothing over, s",
  power: "Power drawn, W",
  specimen: "Which physical item",
  "filter.condition": "Filter",
  "filter.hours": "Hours it had run",
  trials_made: "Tests made in all",
  from_run: "Natural decay of an earlier test",
  note: "Note",
  invented: "Invented",
  key: "Your key",
  handle: "A name to stand beside your tests",
  consent: "Licence",
  do: "Button",
};
const PLAIN_ORDER = Object.keys(PLAIN_WORDS) as PlainField[];

const PLACES = [
  /^(full_log|background|natural|total)\.(file|text|kept)/,
  /^room\.(unit|length|width|height|volume|sides|displaced)/,
  /\.columns\.|day_month$/,
  /\.mark\./,
  /^(find|configuration|described\.)/,
  /^interest$/,
  /^(performed|aerosol|room)/,
  /^counter\./,
  /^noise\./,
  /^(power|specimen|filter|trials_made|from_run|note|invented)/,
];
