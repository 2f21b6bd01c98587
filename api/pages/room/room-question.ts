import { SIZING_SORTS, SizingQuery } from "../../wire/sizing.ts";
import { AEROSOL_WORDS } from "../aerosol-words.ts";
import type { Asked } from "../form/asked.ts";
import { readLengthUnit, readSize, SIZE_FIELDS } from "../form/size-asked.ts";
import { VENTILATION_WORDS } from "../form/size-fields.tsx";
import { KIND_WORDS } from "../kind-words.ts";
import type { Reader } from "../reader.ts";

/** Fields of the form about a reader's own room. */
export const ROOM_FIELDS = [
  ...SIZE_FIELDS,
  "ventilation",
  "natural",
  "target",
  "air_changes",
  "reduction",
  "minutes",
  "ratio",
  "noise_max",
  "distance",
  "budget",
  "price",
  "currency",
  "hours",
  "probability",
  "max_units",
  "band",
  "kind",
  "aerosol",
  "unpaired",
  "sort",
  "show",
] as const;

/** What a target is where its figures are left blank. */
export const TARGET_DEFAULTS = { air_changes: "5", reduction: "99", minutes: "20", ratio: "20" };
const TARGETS = ["air_changes", "clearance", "ratio"] as const;

/** A question as it stands in the address of the API, and as the API reads it. */
export interface RoomQuestion {
  readonly texts: Readonly<Record<string, string>>;
  readonly query: SizingQuery;
}

/** Whether anything is asked at all: a link may only choose the particles. */
export function isAsked(asked: Asked): boolean {
  return asked.holds(["target", "length", "width", "height", "area", "volume"]);
}

/** The API's own question; null, with complaints beside the fields, where it is not whole. */
export function readRoomQuestion(asked: Asked, reader: Reader): RoomQuestion | null {
  const size = readSize(asked);
  const texts: Record<string, string> = {};
  const put = (name: string, value: string | number | undefined) => {
    if (value !== undefined) texts[name] = String(value);
  };
  if (size) {
    put("volume", `${size.value} ${size.unit}`);
    if (size.u > 0) put("volume_u", `${size.u} ${size.unit}`);
  }
  put("natural", asked.number("natural", [0, 100], "per hour"));
  put("ventilation", asked.choice("ventilation", Object.keys(VENTILATION_WORDS)));
  for (const [name, value] of Object.entries(readTarget(asked))) put(name, value);
  put("noise_max", asked.number("noise_max", [-20, 194], "dB(A)"));
  const distance = asked.number("distance", [0.1, 100]);
  if (distance !== undefined) put("distance", `${distance} ${readLengthUnit(asked) === "ft" ? "[ft_i]" : "m"}`);
  put("budget", readMoney(asked, "budget"));
  put("electricity_price", readMoney(asked, "price"));
  put("hours", asked.number("hours", [0.1, 24], "hours"));
  const percent = asked.number("probability", [50, 99.9], "%");
  if (percent !== undefined) put("probability", percent / 100);
  put("max_units", readUnits(asked));
  put("band", asked.texts.band);
  put("kind", asked.choice("kind", Object.keys(KIND_WORDS)));
  put("aerosol", asked.choice("aerosol", Object.keys(AEROSOL_WORDS)));
  put("unpaired", asked.choice("unpaired", ["include", "exclude"]));
  put("sort", asked.choice("sort", SIZING_SORTS));
  put("unit", reader.flow);
  const parsed = SizingQuery.safeParse(texts);
  for (const { path } of parsed.success ? [] : parsed.error.issues) {
    asked.complain(String(path[0]) === "electricity_price" ? "price" : String(path[0]), "This cannot be read.");
  }
  return parsed.success && asked.isRight && size ? { texts, query: parsed.data } : null;
}

/** Only the figures of the target that was chosen; the others keep standing in the form. */
function readTarget(asked: Asked): Record<string, number | string | undefined> {
  const or = (name: keyof typeof TARGET_DEFAULTS, ends: readonly [number, number], unit: string) =>
    asked.texts[name] === undefined ? Number(TARGET_DEFAULTS[name]) : asked.number(name, ends, unit);
  const share = (percent: number | undefined) => (percent === undefined ? undefined : `${percent}%`);
  switch (asked.choice("target", TARGETS) ?? "air_changes") {
    case "air_changes":
      return { air_changes: or("air_changes", [0.01, 1000], "per hour") };
    case "clearance":
      return { reduction: share(or("reduction", [0.1, 99.999], "%")), minutes: or("minutes", [0.1, 10_000], "min") };
    case "ratio":
      return { ratio: share(or("ratio", [0.1, 99.9], "%")) };
  }
}

function readMoney(asked: Asked, name: string): string | undefined {
  const amount = asked.number(name, [0, 1e9]);
  if (amount === undefined) return undefined;
  const currency = asked.texts.currency ?? "";
  if (/^[a-z]{3}$/i.test(currency)) return `${amount} ${currency.toUpperCase()}`;
  asked.complain("currency", "The three letters of a currency are meant, such as EUR.");
  return undefined;
}

function readUnits(asked: Asked): number | undefined {
  const units = asked.number("max_units", [1, 50]);
  if (units === undefined || Number.isInteger(units)) return units;
  asked.complain("max_units", "A whole number from 1 to 50 is meant.");
  return undefined;
}
