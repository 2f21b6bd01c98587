/** What a column's name says about particle sizes. */
export interface SizeMeaning {
  readonly kind: "mass" | "number" | "counts";
  readonly fromUm: number | null;
  readonly toUm: number | null;
  readonly cumulative: "none" | "above" | "below";
}

/**
 * Sizes in a folded column name: PM2.5 and mPM2.5 (mass of all up to 2.5 µm), nPM0.5 (number of all up to 0.5 µm),
 * >0.3 and 0.3 µm (counts of all from 0.3 µm), <1.0, 0.3-1.0 (counts between). Null where the name has none.
 * `tenths`: the file writes sizes in tenths of a micrometre without a point ("pm100", "particles_03um").
 */
export function readSizes(name: string, tenths: boolean): SizeMeaning | null {
  const text = name.replace(/(\d)[ ,p](?=\d)/g, "$1.").replace(/[–—]/g, "-");
  const um = (digits: string) => sizeUm(digits, tenths);
  const pm = PM.exec(text);
  if (pm) {
    const counted = COUNT_WORD.test(`${pm[1]} ${pm[3]}`);
    return { kind: counted ? "number" : "mass", fromUm: null, toUm: um(pm[2]!), cumulative: "below" };
  }
  const range = RANGE.exec(text) ?? RANGE_ALONE.exec(text);
  if (range) {
    const [fromUm, toUm] = [um(range[1]!), um(range[2]!)];
    return fromUm < toUm ? { kind: "counts", fromUm, toUm, cumulative: "none" } : null;
  }
  const below = BELOW.exec(text);
  if (below) return { kind: "counts", fromUm: null, toUm: um(below[1]!), cumulative: "below" };
  const above = ABOVE.exec(text) ?? MICROMETRES.exec(text) ?? SIZE_ALONE.exec(text);
  return above ? { kind: "counts", fromUm: um(above[1]!), toUm: null, cumulative: "above" } : null;
}

const SIZE = String.raw`(\d{1,3}(?:\.\d+)?)`;
const UM = String.raw`\s*(?:um|μm|microns?|micrometers?)`;
const PM = new RegExp(
  String.raw`^((?:.*[^a-z])?(?:m|n|nc|mc|mass ?|num(?:ber)? ?|counts? ?)?)pm[ -]?${SIZE}((?:[^\d.].*)?)$`,
);
const COUNT_WORD = /(?:^|[^a-z])(?:n|nc|num|number|counts?|cnt|particles?)(?:[^a-z]|$)/;
const RANGE = new RegExp(String.raw`(?:^|[^\d.])${SIZE}(?:${UM})?\s*(?:-|to|\.\.)\s*${SIZE}${UM}(?:[^a-z]|$)`);
const RANGE_ALONE = new RegExp(String.raw`^[a-z#]{0,3}\s*${SIZE}\s*(?:-|to|\.\.)\s*${SIZE}$`);
const BELOW = new RegExp(String.raw`(?:<=?|≤|(?:^|[^a-z])(?:below|under|up to) )\s*${SIZE}(?![\d.])`);
const ABOVE = new RegExp(String.raw`(?:>=?|≥|(?:^|[^a-z])(?:above|over|from) )\s*${SIZE}(?![\d.])`);
const MICROMETRES = new RegExp(String.raw`(?:^|[^\d.])${SIZE}${UM}(?:[^a-z]|$)`);
const SIZE_ALONE = new RegExp(String.raw`^(?:pc|particles?|counts?)?\s*${SIZE}$`);

/** "25" is 2.5 and "03" is 0.3 in every file; "10" is 1.0 only in a file that also has a "100" or an "03". */
function sizeUm(digits: string, tenths: boolean): number {
  const value = Number(digits);
  const inTenths = !digits.includes(".") && digits.length > 1 && (tenths || digits === "25" || digits.startsWith("0"));
  return inTenths ? value / 10 : value;
}

/** Whether a file writes sizes in tenths of a micrometre (common practice of sensor libraries, no source). */
export function writesTenths(names: readonly string[]): boolean {
  return names.some((name) => /pm[ -]?100(?![\d.])|(?:^|[^\d.])0\d ?(?:um|μm)/.test(name));
}
