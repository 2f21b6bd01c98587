import { parseNumber } from "./number-text.ts";
import { ReadingError } from "./reading-error.ts";
import { clockSeconds, type DayMonthOrder, findDayMonthOrder, isZoned, stampMs } from "./time-text.ts";

/** Units of a column of times, and how many seconds each is; stamps and clocks have none. */
export const SECONDS_PER_UNIT = { ms: 0.001, s: 1, min: 60, h: 3600, d: 86_400 } as const;
export type TimeUnit = keyof typeof SECONDS_PER_UNIT | "datetime" | "clock";

/** How a run's own times become seconds after its first row sent: marks, windows and crops go the same way. */
export interface TimeScale {
  readonly unit: TimeUnit;
  /** The first row: in the unit, ms since 1970 for datetime, seconds after midnight for clock. */
  readonly origin: number;
  readonly zoned: boolean;
  readonly dayMonthOrder: DayMonthOrder;
}

export interface RunTimes {
  /** Seconds after the first row (the oldest one, where the newest was sent first); NaN where a time could not be read. */
  readonly tS: Float64Array;
  /** The rows came newest first: tS is turned round already, turn the channels with `inTimeOrder`. */
  readonly newestFirst: boolean;
  /** Unix time of the first row in ms, null where the times are relative or carry no zone. */
  readonly startMs: number | null;
  readonly scale: TimeScale;
}

const MOST_UNREADABLE = 0.5; // a column that is mostly not times is another column
const MOST_BACKWARD = 0.2; // clock corrections and backlog are a few rows; more is no order at all

/**
 * Times of a run in its own unit → seconds after the first row. Rows stay as sent, duplicates and single steps back
 * included: cleaning judges those. @throws ReadingError "constant-time", "garbled-time", "ambiguous-date"
 */
export function timeToSeconds(
  values: readonly (number | string | null)[],
  unit: TimeUnit,
  options: { dayMonthOrder?: DayMonthOrder | undefined; twoParts?: "hh:mm" | "mm:ss" } = {},
): RunTimes {
  const texts = values.map((value) => (typeof value === "string" ? value : ""));
  const order = unit === "datetime" ? (options.dayMonthOrder ?? findDayMonthOrder(texts)) : "dmy";
  if (order === null) {
    throw new ReadingError("ambiguous-date", "day and month cannot be told apart: write dates as YYYY-MM-DD");
  }
  const own = Float64Array.from(values, (value) => {
    if (unit === "datetime") return typeof value === "string" ? stampMs(value, order) : Number.NaN;
    if (unit === "clock") return typeof value === "string" ? clockSeconds(value, options.twoParts) : Number.NaN;
    return typeof value === "number" ? value : Number.NaN;
  });
  const readable = own.reduce((count, value) => count + (Number.isFinite(value) ? 1 : 0), 0);
  if (readable < MOST_UNREADABLE * own.length || readable === 0) {
    throw new ReadingError("garbled-time", `only ${readable} of ${own.length} times can be read as ${unit}`);
  }
  if (unit === "clock") unwrapMidnight(own);
  const newestFirst = isNewestFirst(own);
  if (newestFirst) own.reverse();
  const origin = own.find((value) => Number.isFinite(value))!;
  const scale = { unit, origin, zoned: unit === "datetime" && allOrNoneZoned(texts), dayMonthOrder: order };
  const tS = own.map((value) => (Number.isFinite(value) ? finite(inSeconds(value - origin, unit)) : Number.NaN));
  return { tS, newestFirst, startMs: startOf(scale), scale };
}

/** A channel's values in the order of `tS`. */
export function inTimeOrder(values: Float64Array, times: RunTimes): Float64Array {
  return times.newestFirst ? values.toReversed() : values;
}

/** A mark, window or crop given in the run's own time → seconds after its first row. @throws ReadingError "garbled-time" */
export function toRunSeconds(t: number | string, scale: TimeScale): number {
  if (scale.unit === "datetime") {
    if (typeof t !== "string" || (Number.isFinite(stampMs(t, scale.dayMonthOrder)) && isZoned(t) !== scale.zoned)) {
      throw new ReadingError(
        "garbled-time",
        `"${t}" must be a date and time ${scale.zoned ? "with" : "without"} a zone, as in the log`,
      );
    }
    return checked((stampMs(t, scale.dayMonthOrder) - scale.origin) / 1000, t);
  }
  if (scale.unit === "clock") {
    const seconds = clockSeconds(String(t)) - scale.origin;
    return checked(seconds < 0 ? seconds + 86_400 : seconds, t);
  }
  const value = typeof t === "number" ? t : parseNumber(t, ".");
  return checked(inSeconds(value - scale.origin, scale.unit), t);
}

function checked(seconds: number, t: number | string): number {
  if (!Number.isFinite(seconds)) throw new ReadingError("garbled-time", `"${t}" is no time of this log`);
  return seconds;
}

/** Milliseconds are divided, not multiplied by 0.001, so that 2300 ms are 2.3 s to the last bit. */
function inSeconds(difference: number, unit: TimeUnit): number {
  if (unit === "datetime" || unit === "ms") return difference / 1000;
  return unit === "clock" ? difference : difference * SECONDS_PER_UNIT[unit];
}

function finite(value: number): number {
  return Number.isFinite(value) ? value : Number.NaN;
}

/** Steps of a clock are taken modulo 24 h, the shorter way: it passes midnight in either direction. */
function unwrapMidnight(seconds: Float64Array): void {
  const day = 86_400;
  let before = Number.NaN;
  let unwrapped = Number.NaN;
  for (let i = 0; i < seconds.length; i++) {
    const shown = seconds[i]!;
    if (Number.isNaN(shown)) continue;
    const step = shown - before;
    unwrapped = Number.isNaN(before) ? shown : unwrapped + step - day * Math.round(step / day);
    before = shown;
    seconds[i] = unwrapped;
  }
}

function isNewestFirst(own: Float64Array): boolean {
  let up = 0;
  let down = 0;
  let before = Number.NaN;
  let rows = 0;
  for (const value of own) {
    if (!Number.isFinite(value)) continue;
    if (value > before) up++;
    else if (value < before) down++;
    before = value;
    rows++;
  }
  if (rows > 1 && up + down === 0) throw new ReadingError("constant-time");
  if (Math.min(up, down) > Math.max(1, MOST_BACKWARD * (up + down))) {
    throw new ReadingError("garbled-time", `time runs forward ${up} times and backward ${down} times`);
  }
  return down > up;
}

function allOrNoneZoned(texts: readonly string[]): boolean {
  const stamps = texts.filter((text) => text.includes(":"));
  const zoned = stamps.filter(isZoned).length;
  if (zoned > 0 && zoned < stamps.length) {
    throw new ReadingError("garbled-time", "some times carry a zone and some do not");
  }
  return zoned > 0;
}

/** Plain seconds or ms between the years 2001 and 2096 can only be Unix time: as a stop-watch they would show decades. */
function startOf(scale: TimeScale): number | null {
  if (scale.unit === "datetime") return scale.zoned ? scale.origin : null;
  const ms = scale.unit === "s" ? scale.origin * 1000 : scale.unit === "ms" ? scale.origin : Number.NaN;
  return ms > 1e12 && ms < 4e12 ? ms : null;
}
