import { MOST_NOISE } from "./form-fields.ts";
import { type FormReader, filled } from "./form-reader.ts";

const AEROSOLS = ["oil_smoke", "wood_smoke", "incense", "salt", "test_dust", "shop_dust", "ambient", "other"] as const;
const CONDITIONS = ["new", "used", "cleaned", "loaded"] as const;
const METERS = ["class_1", "class_2", "phone", "unknown", "stated_by_maker"] as const;
export const INTERESTS = ["independent", "lent_or_given", "paid", "maker_or_seller"] as const;

/** What a trial says of its conditions; blank fields are left out. */
export function conditionsOfForm(form: FormReader): Record<string, unknown> {
  const kind = form.choice("aerosol.kind", AEROSOLS);
  const note = form.text("aerosol.note");
  const noise = noiseOf(form);
  return {
    ...filled({
      performed_at: performedAt(form),
      specimen: form.text("specimen"),
      filter_state: filled({
        hours: form.number("filter.hours", "h"),
        condition: form.choice("filter.condition", CONDITIONS),
      }),
      aerosol: kind === undefined && note === undefined ? undefined : { kind: kind ?? "other", ...filled({ note }) },
      noise: noise.length > 0 ? noise : undefined,
      power: form.quantity("power", "W"),
      interest: form.choice("interest", INTERESTS),
      trials_made: form.number("trials_made"),
      note: form.text("note"),
      invented: form.text("invented") === undefined ? undefined : true,
    }),
  };
}

/** Local time as the browser gives it, with the offset beside it: RFC 3339. */
function performedAt(form: FormReader): string | undefined {
  const local = form.text("performed_at");
  if (local === undefined) return undefined;
  const stamp = /^(\d{4}-\d\d-\d\d)[T ](\d\d:\d\d)(:\d\d)?$/.exec(local);
  if (!stamp) form.complain("performed_at", "Write date and time as 2026-10-03 18:20.");
  const offset = form.text("performed_offset");
  if (offset === undefined || !/^(?:Z|[+-]\d\d:\d\d)$/.test(offset)) {
    form.complain("performed_offset", "How far is local time ahead of UTC? Write it as +02:00.");
    return undefined;
  }
  return stamp ? `${stamp[1]}T${stamp[2]}${stamp[3] ?? ":00"}${offset}` : undefined;
}

function noiseOf(form: FormReader): unknown[] {
  return noiseRows(form).map((n) => {
    const at = `noise.${n}` as const;
    const unit = form.choice(`${at}.distance_unit`, ["m", "ft"]) === "ft" ? "[ft_i]" : "m";
    return filled({
      quantity: form.choice(`${at}.quantity`, ["L_pA", "L_WA"]) ?? "L_pA",
      level: form.quantity(`${at}.level`, "dB(A)"),
      background: form.quantity(`${at}.background`, "dB(A)"),
      distance: form.quantity(`${at}.distance`, unit),
      meter: form.choice(`${at}.meter`, METERS) ?? "unknown",
    });
  });
}

/** Rows of noise in which anything is written; the pointer `noise/0` means the first of these. */
export function noiseRows(form: Pick<FormReader, "text">): number[] {
  const rows = Array.from({ length: MOST_NOISE }, (_, n) => n);
  return rows.filter((n) =>
    (["level", "background", "distance"] as const).some((name) => form.text(`noise.${n}.${name}`)),
  );
}
