import { parseUnit, UnitError } from "../units.ts";
import { fold, splitHeader, timeUnitOf } from "./header-text.ts";
import { readSizes } from "./particle-size.ts";
import type { TimeUnit } from "./time-to-seconds.ts";

/** What a column's name makes of it, before its contents and the submitter's word are looked at. */
export type ColumnMeaning =
  | {
      readonly role: "time";
      readonly unit: TimeUnit | null;
      readonly minutesFirst: boolean;
      readonly rank: number;
      readonly why: string;
    }
  | { readonly role: "channel"; readonly channel: ChannelMeaning; readonly why: string }
  | { readonly role: "index" | "ignored" | "unknown"; readonly why: string };

export interface ChannelMeaning {
  readonly quantity: "number" | "mass" | "raw";
  /** The unit as written, or the quantity's usual one. */
  readonly unit: string;
  readonly fromUm: number | null;
  readonly toUm: number | null;
  readonly cumulative: "none" | "above" | "below";
}

/** Reads a column's header. `tenths`: see `readSizes`. */
export function meaningOf(header: string, tenths: boolean): ColumnMeaning {
  const { name, unit } = splitHeader(header);
  const whole = fold(header);
  if (INDEX.test(whole)) return { role: "index", why: "an index is no concentration" };
  const time = timeRank(name);
  if (time !== null) {
    const own = unit === null ? timeUnitOf(name) : timeUnitOf(unit);
    return {
      role: "time",
      unit: own,
      minutesFirst: unit !== null && fold(unit) === "mm:ss",
      rank: time,
      why: "named as a time",
    };
  }
  const sizes = readSizes(name, tenths) ?? (unit && /^(?:um|μm)$/.test(fold(unit)) ? readSizes(whole, tenths) : null);
  const quantity = unit === null ? null : quantityOf(unit);
  if (sizes) {
    const { kind, ...range } = sizes;
    const told = unit !== null && !/^(?:um|μm)$/.test(fold(unit));
    const channel = { ...range, ...(told ? toldUnit(unit, quantity, kind) : usualUnit(kind)) };
    return { role: "channel", channel, why: `a size in the name${told ? "" : ", the unit is the usual one"}` };
  }
  if (IGNORED.test(name) || (unit !== null && OTHER_UNIT.test(unit.trim())))
    return { role: "ignored", why: "not a concentration of particles" };
  const sizeless = { fromUm: null, toUm: null, cumulative: "none" as const };
  if (quantity !== null)
    return { role: "channel", channel: { quantity, unit: unit!, ...sizeless }, why: "a concentration by its unit" };
  if (!GENERIC.test(name)) return { role: "unknown", why: "the name says nothing known" };
  return {
    role: "channel",
    channel: { quantity: "raw", unit: unit ?? "1", ...sizeless },
    why: "named as a reading of particles",
  };
}

/** number or mass where a unit is one of theirs, null otherwise. */
function quantityOf(unit: string): "number" | "mass" | null {
  for (const quantity of ["number", "mass"] as const) {
    try {
      parseUnit(unit, DIMENSIONS[quantity]);
      return quantity;
    } catch (error) {
      if (!(error instanceof UnitError)) throw error;
    }
  }
  return null;
}

/** What the values of a quantity are measured in. */
export const DIMENSIONS = { number: "number concentration", mass: "mass concentration" } as const;

function usualUnit(kind: "mass" | "number" | "counts"): Pick<ChannelMeaning, "quantity" | "unit"> {
  if (kind === "mass") return { quantity: "mass", unit: "ug/m3" };
  return kind === "number" ? { quantity: "number", unit: "1/cm3" } : { quantity: "raw", unit: "1" };
}

/** A unit that is written but not known leaves raw values: k does not depend on it. A word in brackets ("left") is no unit. */
function toldUnit(unit: string, quantity: "number" | "mass" | null, kind: "mass" | "number" | "counts") {
  if (quantity !== null) return { quantity, unit };
  return unit.includes("/") ? { quantity: "raw" as const, unit } : usualUnit(kind);
}

/** How surely a folded name is the time's, 0 the surest; null where it is not. */
function timeRank(name: string): number | null {
  const rank = TIME_NAMES.findIndex((pattern) => pattern.test(name));
  return rank < 0 ? null : rank;
}

const TIME_NAMES = [
  /^(?:time ?stamp|date ?time|date ?\/ ?time|date and time|time|elapsed(?: time)?|time elapsed|run ?time|rel(?:ative)? time|zeit(?:stempel)?)$/,
  /^(?:.* )?(?:time ?stamp|date ?time|time utc|utc time|local time|unix(?: time)?|epoch|utc|created at|recorded at|seconds|secs?|minutes|mins?|hours|millis|ms|ts|uhrzeit|time ms|clock)$/,
  /^(?:date|datum|.* time|time .*|t|s|min|h)$/,
];

const INDEX = /(?:^|[^a-z])(?:aqi|iaq|caqi|aqhi|naqi)(?:[^a-z]|$)|air ?quality|quality index|(?:^| )index$/;
const IGNORED =
  /(?:^|[^a-z])(?:temp(?:erature)?|t[cf]|rh|hum(?:idity)?|dew|press(?:ure)?|baro|typical|size|e?co2|t?voc|nox|hcho|o3|no2|so2|batt(?:ery)?|volt(?:age)?|current|power|rpm|fan|speed|flow|lat|lon|alt|status|error|flag|rssi|uptime|id|serial|row|no|notes?|comment|lux|light|noise|sound|zone|firmware|version)(?:[^a-z]|$)/;
const OTHER_UNIT = /^(?:°|%|deg|[hkm]?Pa|mbar|ppm|ppb|V|mV|dB|lx|rpm|[CFK]$|l\/min|m\/s)/i;
const GENERIC =
  /count|particle|number|conc|aerosol|mass|dust|smoke|raw|signal|scatter|cpm|(?:^|[^a-z])(?:n|pm)(?:[^a-z]|$)/;
