/** A value and its expanded uncertainty as a reader quotes them: U to two digits, the value to match (GUM 7.2.6). */
export function figures(value: number, expanded: number): { value: string; expanded: string } {
  const two = Number(expanded.toPrecision(2)); // first, so that 9.97 is 10 and not 10.0
  if (!(two > 0) || !Number.isFinite(two)) return { value: written(value, 0), expanded: written(expanded, 0) };
  const place = Math.floor(Math.log10(two)) - 1;
  const step = 10 ** Math.max(0, place);
  return { value: written(Math.round(value / step) * step || 0, -place, value), expanded: written(two, -place) };
}

/** Fixed decimals with a real minus sign; where there are decimals, `exact` is what is rounded. */
function written(rounded: number, decimals: number, exact = rounded): string {
  return decimals > 0 ? minus(exact.toFixed(Math.min(decimals, 12))) : minus(rounded.toFixed(0));
}

function minus(text: string): string {
  return grouped(text).replace("-", "−");
}

/** Digits before the point in threes from five on, with narrow spaces that do not break: 12 300. */
export function grouped(text: string): string {
  const [whole = "", ...rest] = text.split(".");
  const apart = /\d{5}/.test(whole) ? whole.replaceAll(/\B(?=(?:\d{3})+$)/g, "\u202f") : whole;
  return [apart, ...rest].join(".");
}

interface Interval {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** `601 ± 31` of a quantity with a symmetric 95 % interval. */
export function plusMinus(quantity: Interval): string {
  const { value, expanded } = figures(quantity.value, (quantity.high - quantity.low) / 2);
  return `${value} ± ${expanded}`;
}

/** `14.2 min (13.1 to 15.6)` style range, for intervals that are not symmetric. */
export function range(quantity: Interval): string {
  const half = (quantity.high - quantity.low) / 2;
  const shown = (x: number) => end(x, half);
  return `${shown(quantity.value)} (${shown(quantity.low)} to ${shown(quantity.high)})`;
}

/** Both ends alone, `170 to 320`, with as many digits as half the distance between them deserves. */
export function between({ low, high }: Pick<Interval, "low" | "high">): string {
  const shown = (x: number) => end(x, (high - low) / 2);
  return `${shown(low)} to ${shown(high)}`;
}

/** One end with the digits of the interval; a bound that is 0 for good, as where an interval is cut there, is a bare 0. */
function end(x: number, half: number): string {
  return x === 0 ? "0" : figures(x, half).value;
}

/** Two significant digits, of a figure that has no interval of its own: an uncertainty, what raised a finding. */
export function two(value: number): string {
  return figures(value, Math.abs(value)).value;
}

/** An instant in UTC to the minute. */
export function instant(iso: string): string {
  return `${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC`;
}

/** UCUM codes as people write them. */
export function unitWords(code: string): string {
  return UNIT_WORDS[code] ?? code;
}

const UNIT_WORDS: Record<string, string> = {
  "m3/h": "m³/h",
  "[cft_i]/min": "cfm",
  "1/h": "per hour",
  "1/cm3": "per cm³",
  "ug/m3": "µg/m³",
  m3: "m³",
  ft3: "ft³",
  "[cft_i]": "ft³",
  "[ft_i]": "ft",
  us: "µs",
  um: "µm",
  Cel: "°C",
  "[degF]": "°F",
};

/** Bands in words: what was counted, never what it was supposed to be. */
export const BAND_WORDS: Record<string, string> = {
  "0.1-1.0": "0.1–1.0 µm",
  "0.5-3.0": "0.5–3.0 µm",
  "5-11": "5–11 µm",
  mass: "mass to 2.5 µm",
};

/** What is about as large, for whoever does not think in micrometres: smoke, dust and pollen after AC-1's names, the rest common practice. */
export const BAND_LIKE: Record<string, string> = {
  "0.1-1.0": "smoke and fume sized",
  "0.5-3.0": "fine dust sized",
  "5-11": "pollen and coarse wood dust sized",
  mass: "what a PM2.5 counter shows",
};

/** Bands to choose from. */
export const BAND_CHOICES: Record<string, string> = Object.fromEntries(
  Object.entries(BAND_WORDS).map(([band, words]) => [band, `${words}, ${BAND_LIKE[band]}`]),
);

/** The same as `bandPhrase` where a page names its particles first. */
export function bandAtFirst(band: string): string {
  return BAND_LIKE[band] ? `${bandPhrase(band)} (${BAND_LIKE[band]})` : bandPhrase(band);
}

/** What a rate is a rate of, to follow "for". */
export function bandPhrase(band: string): string {
  if (band === "mass") return "the mass of particles up to 2.5 µm";
  return BAND_WORDS[band] ? `particles of ${BAND_WORDS[band]}` : `the readings of ${band.slice(band.indexOf("/") + 1)}`;
}

export const INTEREST_WORDS: Record<string, string> = {
  independent: "bought or built by the tester",
  lent_or_given: "lent or given for the test",
  paid: "the test was paid for",
  maker_or_seller: "tested by its maker or seller",
};
