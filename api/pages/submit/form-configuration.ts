import { chosenOf, DESCRIBED, MOST_PARTS } from "./form-fields.ts";
import { type FormReader, filled } from "./form-reader.ts";

const PARTS = ["fan", "filter", "housing", "ioniser", "other"] as const;
const GRADES = ["MERV", "ISO16890", "EN1822", "other"] as const;
const FLOWS = ["m3/h", "[cft_i]/min"] as const;

/** `configuration` and `setting` of a trial: a stored one as chosen, or one described here; nothing where nothing is said. */
export function configurationOfForm(form: FormReader): Record<string, unknown> {
  const value = chosenConfiguration(form);
  const chosen = value === undefined ? null : chosenOf(value);
  if (chosen) return { configuration: chosen.id, ...(chosen.setting === null ? {} : { setting: chosen.setting }) };
  if (value !== undefined && value !== DESCRIBED)
    form.complain("configuration", "Choose one of the list, or describe it.");
  return value === DESCRIBED ? described(form) : {};
}

/** The value of `configuration`; whoever describes one and chooses none means the one described. */
export function chosenConfiguration(form: Pick<FormReader, "text">): string | undefined {
  return form.text("configuration") ?? (isDescribed(form) ? DESCRIBED : undefined);
}

function isDescribed(form: Pick<FormReader, "text">): boolean {
  const own = ["title", "kind", "maker", "model", "arrangement"] as const;
  return own.some((name) => form.text(`described.${name}`)) || partRows(form).length > 0;
}

/** A described configuration with the one setting that was tested. */
function described(form: FormReader): Record<string, unknown> {
  const setting = form.text("described.setting");
  const flow = form.quantity("described.setting_flow", form.choice("described.setting_flow_unit", FLOWS) ?? "m3/h");
  if (flow && setting === undefined)
    form.complain("described.setting", "Name the setting that this air flow is stated for.");
  const configuration = {
    title: form.text("described.title"),
    kind: form.choice("described.kind", ["user_built", "commercial"]),
    maker: form.text("described.maker"),
    model: form.text("described.model"),
    arrangement: form.text("described.arrangement"),
    parts: partsOf(form),
    settings: setting === undefined ? undefined : [filled({ label: setting, stated_flow: flow })],
    costs: costOf(form),
    plan_url: form.text("described.plan_url"),
    derived_from: form.text("described.derived_from"),
  };
  return { configuration: filled(configuration), ...(setting === undefined ? {} : { setting }) };
}

function partsOf(form: FormReader): unknown[] {
  return partRows(form).map((n) => {
    const at = `described.parts.${n}` as const;
    const grade = form.text(`${at}.grade`);
    const system = form.choice(`${at}.grade_system`, GRADES);
    return {
      part: form.choice(`${at}.part`, PARTS) ?? "other",
      count: form.number(`${at}.count`) ?? 1,
      ...filled({
        description: form.text(`${at}.description`),
        size: form.text(`${at}.size`),
        stated_flow: form.quantity(`${at}.flow`, form.choice(`${at}.flow_unit`, FLOWS) ?? "m3/h"),
        filter_grade: grade === undefined ? undefined : { system: system ?? "other", grade },
      }),
    };
  });
}

/** Rows of parts in which anything is written; the pointer `parts/0` means the first of these. */
export function partRows(form: Pick<FormReader, "text">): number[] {
  const rows = Array.from({ length: MOST_PARTS }, (_, n) => n);
  return rows.filter((n) =>
    (["description", "size", "flow", "grade"] as const).some((name) => form.text(`described.parts.${n}.${name}`)),
  );
}

/** How many rows of parts the form shows: as many as it has sent, three to begin with. */
export function partRowsShown(fields: ReadonlyMap<string, string>): number {
  const sent = [...fields.keys()].map((name) => Number(/^described\.parts\.(\d{1,2})\./.exec(name)?.[1] ?? -1) + 1);
  return Math.min(MOST_PARTS, Math.max(3, ...sent));
}

/** A price is of a day, in a currency; it is never converted. */
function costOf(form: FormReader): unknown[] | undefined {
  const value = form.number("described.cost");
  if (value === undefined) return undefined;
  const currency = form.text("described.currency")?.toUpperCase();
  const date = form.text("described.cost_date");
  if (currency === undefined) form.complain("described.currency", "Which currency, as three letters?");
  if (date === undefined) form.complain("described.cost_date", "On which day was that the price?");
  return [{ item: "whole", money: filled({ value, currency, date }) }];
}
