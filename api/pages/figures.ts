/** A value and its expanded uncertainty as a reader quotes them: U to two digits, the value to match (GUM 7.2.6). */
export function figures(value: number, expanded: number): { value: string; expanded: string } {
  const decimals = Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(expanded))));
  if (!Number.isFinite(decimals)) return { value: String(value), expanded: String(expanded) };
  const round = (x: number) => {
    if (expanded < 100) return x.toFixed(decimals);
    const step = 10 ** (Math.floor(Math.log10(expanded)) - 1);
    return String(Math.round(x / step) * step);
  };
  return { value: round(value).replace("-", "−"), expanded: round(expanded) };
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
  const shown = (x: number) => figures(x, half).value;
  return `${shown(quantity.value)} (${shown(quantity.low)} to ${shown(quantity.high)})`;
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
  min: "min",
};

/** Bands in words: what was counted, never what it was supposed to be. */
export const BAND_WORDS: Record<string, string> = {
  "0.1-1.0": "0.1–1.0 µm",
  "0.5-3.0": "0.5–3.0 µm",
  "5-11": "5–11 µm",
  mass: "mass up to 2.5 µm",
};

export const INTEREST_WORDS: Record<string, string> = {
  independent: "bought or built by the tester",
  lent_or_given: "lent or given for the test",
  paid: "the test was paid for",
  maker_or_seller: "tested by its maker or seller",
};
