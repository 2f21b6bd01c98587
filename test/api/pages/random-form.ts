import type { Random } from "../../../analysis/simulate/random.ts";
import {
  COLUMN_USES,
  DESCRIBED,
  type FieldName,
  MARK_EVENTS,
  PLAIN_FIELDS,
  SLOTS,
} from "../../../api/pages/submit/form-fields.ts";

/** A form that fits, of which some fields are filled by chance with what fits less. */
export function randomForm(random: Random): Map<string, string> {
  const chance = (n: number) => Math.floor(n * random.uniform());
  const fields = new Map<string, string>(Object.entries(FITTING));
  for (let change = chance(chance(9) + 1); change > 0; change--) {
    const name = NAMES[chance(NAMES.length)]!;
    const own = OWN[name] ?? [];
    const values = own.length > 0 && chance(2) === 0 ? own : ODD;
    fields.set(name, values[chance(values.length)]!);
  }
  return fields;
}

const FITTING = {
  "room.volume": "30",
  "room.ventilation": "off",
  configuration: DESCRIBED,
  "described.title": "Tern box",
  "described.kind": "user_built",
  "described.parts.0.part": "fan",
  "described.parts.0.count": "1",
  "described.parts.0.description": "axial fan",
  "described.parts.2.description": "pleated panel",
  "described.parts.2.grade": "13",
  "described.setting": "low",
  performed_at: "2026-10-03T18:20",
  performed_offset: "+02:00",
  interest: "paid",
  "noise.1.level": "44",
  "noise.1.distance": "1",
  consent: "yes",
} satisfies Partial<Record<FieldName, string>>;

const NAMES: readonly FieldName[] = [
  ...PLAIN_FIELDS.filter((name) => name !== "do"),
  ...SLOTS.flatMap((slot): FieldName[] => [
    `${slot}.day_month`,
    ...MARK_EVENTS.map((event): FieldName => `${slot}.mark.${event}`),
    ...(["name", "use", "unit", "from", "to", "cumulative"] as const).map(
      (part): FieldName => `${slot}.columns.1.${part}`,
    ),
  ]),
  ...(["part", "count", "description", "size", "flow", "flow_unit", "grade_system", "grade"] as const).map(
    (part): FieldName => `described.parts.2.${part}`,
  ),
  ...(["quantity", "level", "background", "distance", "distance_unit", "meter"] as const).map(
    (part): FieldName => `noise.1.${part}`,
  ),
];

const OWN: Partial<Record<FieldName, readonly string[]>> = {
  "room.unit": ["m", "ft"],
  "room.length": ["5"],
  "room.width": ["4"],
  "room.height": ["2.4"],
  configuration: ["cfg-0000000000Z", "cfg-0000000000Z low", ""],
  "described.kind": ["commercial"],
  "described.plan_url": ["https://plans.example/box", "javascript:alert(1)", "plans.example"],
  "described.cost_date": ["2026-10-03", "2026-13-40"],
  "described.currency": ["EUR", "eur", "EURO"],
  performed_at: ["2026-10-03T18:20:11", "2026-02-31T18:20", "2026-10-03 25:20"],
  performed_offset: ["+05:30", "Z", "+99:00"],
  "counter.smoothing": ["none", "lag", "moving_mean"],
  from_run: ["trl-1/runs/0"],
  "full_log.day_month": ["dmy", "mdy"],
  "full_log.columns.1.use": COLUMN_USES,
  "noise.1.quantity": ["L_WA"],
  "noise.1.meter": ["phone"],
};

/** What people and others put into fields. */
const ODD = [
  "",
  " ",
  "0",
  "-1",
  "1.5",
  "2,5",
  "1e999",
  "99999999999999999999",
  "0.0000000000000001",
  "NaN",
  "abc",
  "m",
  "=1+1",
  "a\u0000b",
  "\ud800",
  "\u202Eevil",
  "<script>",
  "x".repeat(300),
  "y".repeat(5000),
  "__proto__",
];
