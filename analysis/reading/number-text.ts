export type DecimalMark = "." | ",";

/**
 * The number a cell holds, NaN where it holds none. Thousands may be set off by spaces, apostrophes or the mark that is not
 * the decimal one, in groups of three. Hexadecimal, "Infinity" and 1e400 are no readings.
 */
export function parseNumber(cell: string, mark: DecimalMark): number {
  if (cell.length > LONGEST) return Number.NaN;
  const text = cell.trim();
  const grouped = mark === "," && GROUPED_BY_POINT.test(text);
  const plain = !grouped && PLAIN.test(text) ? text : withoutGroups(text, mark);
  if (plain === null) return Number.NaN;
  const value = Number(plain);
  return Number.isFinite(value) ? value : Number.NaN;
}

const LONGEST = 64; // no reading is written longer

const PLAIN = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?$/;
const GROUPED_BY_COMMA = /^[-+]?[1-9]\d{0,2}(?:,\d{3})+(?:\.\d*)?$/;
const GROUPED_BY_POINT = /^[-+]?[1-9]\d{0,2}(?:\.\d{3})+(?:,\d*)?$/;
const GROUPED_BY_SPACE = /^[-+]?\d{1,3}(?:[ '\u2019\u00a0\u2009\u202f]\d{3})+(?:[.,]\d*)?$/;
const DECIMAL_COMMA = /^[-+]?(?:\d+,\d*|,\d+)(?:[eE][-+]?\d+)?$/;

function withoutGroups(text: string, mark: DecimalMark): string | null {
  if (GROUPED_BY_SPACE.test(text)) return parseable(text.replace(/[^\d.,+-]/g, ""), mark);
  if (mark === "," && DECIMAL_COMMA.test(text)) return text.replace(",", ".");
  if (mark === "," && GROUPED_BY_POINT.test(text)) return text.replaceAll(".", "").replace(",", ".");
  if (mark === "." && GROUPED_BY_COMMA.test(text)) return text.replaceAll(",", "");
  return null;
}

function parseable(text: string, mark: DecimalMark): string {
  return mark === "," ? text.replace(",", ".") : text.replaceAll(",", "");
}

/**
 * The decimal mark of a file. A cell whose comma cannot set off thousands ("0,5", "12,3456") tells; "1,234" does not. Where
 * nothing tells, it is a decimal comma if a column writes all its numbers that way, and sets off thousands if the column also
 * holds whole numbers without one.
 */
export function findDecimalMark(rows: readonly (readonly string[])[]): DecimalMark {
  let points = 0;
  let commas = 0;
  const unsure = new Map<number, number>();
  const whole = new Set<number>();
  for (const row of rows) {
    row.forEach((cell, column) => {
      const text = cell.trim();
      if (/^[-+]?\d+$/.test(text)) whole.add(column);
      else if (GROUPED_BY_COMMA.test(text) && !text.includes(".")) {
        unsure.set(column, (unsure.get(column) ?? 0) + 1);
      } else if (DECIMAL_COMMA.test(text) || (GROUPED_BY_POINT.test(text) && text.includes(","))) commas++;
      else if (PLAIN.test(text) || GROUPED_BY_COMMA.test(text)) points++;
    });
  }
  if (commas > 0 || points > 0) return commas > points ? "," : ".";
  return [...unsure.keys()].some((column) => !whole.has(column)) ? "," : ".";
}
