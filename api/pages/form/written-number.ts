/** A number in a unit, as a code of UCUM, with or without its name; NaN for anything else. */
export function writtenIn(text: string, unit: string): number {
  return unit === "[ft_i]" ? writtenFeet(text) : writtenNumber(text, unit);
}

/** A number with a decimal point or comma, and maybe the unit that the field is in; NaN for anything else. */
export function writtenNumber(text: string, unitOfField = ""): number {
  const written = text.trim();
  const [, figure = "", unit = ""] = /^([+\-−]?[\d.,]+)\s*(.*)$/su.exec(written) ?? [];
  if (unit !== "" && !UNIT_SPELLINGS[unitOfField]?.test(unit)) return Number.NaN;
  return PLAIN_NUMBER.test(figure) ? Number(figure.replace(",", ".").replace("−", "-")) : Number.NaN;
}

/** A length in feet as a tape has it: 4' 11", 4 ft 11 1/2 in, 6 ¾, 59 in; NaN for anything else. 1 ft = 12 in. */
function writtenFeet(text: string): number {
  const spelled = text
    .replaceAll(/[¼-¾⅐-⅞]/gu, (fraction) => ` ${fraction.normalize("NFKD").replace("⁄", "/")}`)
    .replaceAll(/\s*(?:''|′′|’’|″|”|inch(?:es)?|in\.?)/giu, '"')
    .replaceAll(/\s*(?:′|’|feet|foot|ft\.?)/giu, "'")
    .trim();
  const [, inches] = /^([^'"]+)"$/.exec(spelled) ?? [];
  if (inches !== undefined) return mixed(inches) / 12;
  const [, feet = "", more] = /^([^'"]+)(?:'(?:[\s,]*([^'"]+)")?)?$/.exec(spelled) ?? [];
  return mixed(feet) + (more === undefined ? 0 : mixed(more) / 12);
}

/** 11, 11.5, 11 1/2 or 1/2; NaN for anything else. */
function mixed(text: string): number {
  const match = /^\s*(?:([\d.,]+)(?=\s|$))?\s*(?:(\d{1,3})\/(\d{1,3}))?$/.exec(text);
  if (!match || text.trim() === "") return Number.NaN;
  const [, whole = "0", over = "0", under = "1"] = match;
  return writtenNumber(whole) + Number(over) / Number(under);
}

const PLAIN_NUMBER = /^[+\-−]?(?:\d{1,30}(?:[.,]\d{0,30})?|[.,]\d{1,30})$/;

/** How people write the units of fields. */
const UNIT_SPELLINGS: Readonly<Record<string, RegExp>> = {
  m: /^(?:m|met(?:re|er)s?)$/i,
  "[ft_i]": /^(?:'|′|’|ft\.?|foot|feet)$/i,
  m3: /^(?:m3|m³|m\^3|cubic met(?:re|er)s?)$/i,
  "[cft_i]": /^(?:ft3|ft³|ft\^3|cu\.? ?ft\.?|cubic (?:foot|feet))$/i,
  Cel: /^°? ?C$/i,
  "[degF]": /^°? ?F$/i,
  "%": /^%$/,
  "m3/h": /^m[3³]\/h$/i,
  "[cft_i]/min": /^(?:cfm|ft[3³]\/min)$/i,
  "dB(A)": /^dB ?(?:A|\(A\))?$/i,
  "L/min": /^L\/min$/i,
  W: /^W(?:atts?)?$/i,
  us: /^[µμu]s$/i,
  s: /^s(?:ec(?:onds)?)?\.?$/i,
  min: /^min(?:utes)?\.?$/i,
  h: /^h(?:ours?|rs?)?\.?$/i,
};
