import { UNIT_TABLE, type UnitRow } from "./unit-table.ts";

export type Dimension = keyof typeof UNIT_TABLE;

export interface Unit {
  /** Canonical UCUM code. */
  readonly code: string;
  readonly dimension: Dimension;
  /** Factor for differences and standard uncertainties: u in base units = u · scale. */
  readonly scale: number;
  /** "A" where the spelling said so, as dB(A) does; null where it says nothing. */
  readonly weighting: "A" | null;
  readonly toBase: (value: number) => number;
  readonly fromBase: (value: number) => number;
}

/** A unit that is not known, or not of the dimension asked for. `known` are the UCUM codes that would do. */
export class UnitError extends Error {
  override readonly name = "UnitError";
  readonly known: readonly string[];

  constructor(message: string, known: readonly string[]) {
    super(message);
    this.known = known;
  }
}

/**
 * The unit that a UCUM code or a spelling of the trade means. Superscripts, both letters mu, blanks, ^ and UCUM annotations
 * in braces make no difference; case does, except that all capitals or all small letters are forgiven.
 * Without a dimension the first that knows the spelling counts, so "%" is humidity. @throws UnitError
 */
export function parseUnit(text: string, dimension?: Dimension): Unit {
  const key = unitKey(text);
  const oneCase = key === key.toLowerCase() || key === key.toUpperCase();
  const meanings = SPELLINGS.get(key) ?? (oneCase ? FOLDED.get(key.toLowerCase()) : undefined) ?? [];
  const unit = meanings.find((each) => dimension === undefined || each.dimension === dimension);
  if (unit) return unit;
  const shown = JSON.stringify(text.slice(0, 40));
  const known = listUnits(dimension);
  const wanted = dimension === undefined ? "" : ` of ${dimension}`;
  const elsewhere = meanings[0] ? `${shown} is a unit of ${meanings[0].dimension}` : `${shown} is not a known unit`;
  throw new UnitError(`${elsewhere}${meanings[0] ? `, not${wanted}` : wanted}; known are ${known.join(", ")}`, known);
}

/** UCUM codes known for a dimension, the base unit first; of all dimensions when none is named. */
export function listUnits(dimension?: Dimension): string[] {
  const units = dimension === undefined ? UNITS : UNITS.filter((unit) => unit.dimension === dimension);
  return [...new Set(units.map(({ code }) => code))];
}

/**
 * Splits "30m3", "30 m3", "30m³" or "5 1/min" (also with + for the blank) into value and unit. A unit that starts with a digit
 * needs the blank: "51/min" is 51 per minute. Decimals take a dot. The unit comes back as written, known to exist.
 * @throws UnitError for the unit, RangeError for the number
 */
export function parseQuantityText(text: string): { value: number; unit: string } {
  const shown = JSON.stringify(text.slice(0, 40));
  const match = /^\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)[\s+]*(.*?)\s*$/isu.exec(text);
  if (!match) throw new RangeError(`${shown} does not start with a number, as in 30 m3`);
  const [, number, unit] = match as unknown as [string, string, string];
  if (/^,\d/.test(unit)) throw new RangeError(`${shown}: decimals take a dot, as in 1.5 m3`);
  if (unit === "") throw new RangeError(`${shown} has no unit, as in 30 m3`);
  const value = Number(number);
  if (!Number.isFinite(value)) throw new RangeError(`${shown} is beyond what can be computed with`);
  parseUnit(unit);
  return { value, unit };
}

/** A spelling without what makes no difference to its meaning. */
function unitKey(text: string): string {
  return text
    .normalize("NFKC") // ³ → 3, µ (micro sign) → μ (Greek), ℃ → °C
    .replace(/\{[^{}]*\}/g, "")
    .replaceAll("μ", "u")
    .replaceAll("−", "-")
    .replace(/\s|\^|\*\*/g, "");
}

const UNITS: readonly Unit[] = Object.entries(UNIT_TABLE).flatMap(([dimension, rows]) =>
  rows.map((row) => unitOf(row, dimension as Dimension)),
);

function unitOf({ code, scale, zero = 0, weighting }: UnitRow, dimension: Dimension): Unit {
  return {
    code,
    dimension,
    scale,
    weighting: weighting ?? null,
    toBase: (value) => (value - zero) * scale,
    fromBase: (value) => value / scale + zero,
  };
}

/** Maps, not objects: no spelling can reach a prototype. */
const SPELLINGS = spellings((key) => key);
const FOLDED = spellings((key) => key.toLowerCase());

function spellings(fold: (key: string) => string): Map<string, Unit[]> {
  const map = new Map<string, Unit[]>();
  const rows: UnitRow[] = Object.values(UNIT_TABLE).flat();
  for (const [i, row] of rows.entries())
    for (const spelling of [row.code, ...row.aliases]) {
      const key = fold(spelling);
      map.set(key, [...(map.get(key) ?? []), UNITS[i]!]);
    }
  return map;
}
