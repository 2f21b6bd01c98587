import type { TimeUnit } from "./time-to-seconds.ts";

export interface HeaderText {
  /** The name without its unit, lower case, compatibility forms resolved (³ → 3, µ → μ), separators as one space. */
  readonly name: string;
  /** The unit as written, null where the header has none. */
  readonly unit: string | null;
}

/** Splits "PM2.5 (µg/m³)", "PM2.5 [ug/m3]", "time_s", "elapsed min", "pm25_ug_m3" into a name and a unit. */
export function splitHeader(header: string): HeaderText {
  const text = header.trim();
  const bracket = /^(.*?)\s*[([{]\s*([^()[\]{}]*?)\s*[)\]}]\s*$/.exec(text);
  if (bracket) return { name: fold(bracket[1]!), unit: bracket[2]! === "" ? null : bracket[2]! };
  const tail = TAIL.exec(text);
  if (tail && tail.index > 0) {
    return { name: fold(text.slice(0, tail.index)), unit: tail[1]!.replace(/([gm])[_ ](c?m)/, "$1/$2") };
  }
  return { name: fold(text), unit: null };
}

/** Units that are told from a name without brackets: those with a slash, masses per volume, degrees, per cent, times. */
const TAIL =
  /(?:\s+in\s+|[\s_,|:/]+)(#?[^\s_,]*\/(?:0\.1)?[a-zµμ]+(?:\^?[-\d³]+)?|[µμumn]g[_ ]?m\^?[3³]|°[CF]|%|ms|msecs?|millis(?:econds)?|s|secs?|seconds?|min|mins|minutes?|h|hrs?|hours?|hh:mm(?::ss)?|mm:ss)$/i;

/** Lower case, compatibility forms resolved, runs of blanks and underscores as one space: for comparing names. */
export function fold(text: string): string {
  return text
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[\s_]+/g, " ")
    .trim();
}

/** The unit of time a header's word means, null where it means none. */
export function timeUnitOf(word: string): TimeUnit | null {
  const text = fold(word).replace(/^unix /, "");
  return [...TIME_WORDS].find(([, pattern]) => pattern.test(text))?.[0] ?? null;
}

const TIME_WORDS = new Map<TimeUnit, RegExp>([
  ["ms", /^(?:ms|msecs?|millis|milliseconds?)$/],
  ["s", /^(?:s|secs?|seconds?|sekunden)$/],
  ["min", /^(?:m|mins?|minutes?|minuten)$/],
  ["h", /^(?:h|hrs?|hours?|stunden)$/],
  ["d", /^(?:d|days?)$/],
  ["datetime", /^(?:datetime|date ?time|iso ?8601|rfc ?3339)$/],
  ["clock", /^(?:clock|h+:mm(?::ss)?|mm:ss)$/],
]);
