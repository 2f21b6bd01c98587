import { unitWords } from "../figures.ts";
import { writtenIn } from "../form/written-number.ts";
import type { FieldName } from "./form-fields.ts";

/** What is wrong with one field, in words that stand beside it. */
export interface FieldComplaint {
  readonly field: FieldName;
  readonly detail: string;
}

export interface SentQuantity {
  readonly value: number;
  readonly unit: string;
  readonly u?: number;
}

/** The fields of a form as they were filled: blank is left out, and what cannot be read is complained about once. */
export class FormReader {
  readonly complaints: FieldComplaint[] = [];
  readonly #fields: ReadonlyMap<string, string>;

  constructor(fields: ReadonlyMap<string, string>) {
    this.#fields = fields;
  }

  complain(field: FieldName, detail: string): void {
    if (!this.complaints.some((complaint) => complaint.field === field)) this.complaints.push({ field, detail });
  }

  /** Trimmed, with line ends as they are stored; undefined where blank. */
  text(field: FieldName): string | undefined {
    const text = this.#fields.get(field)?.replaceAll(/\r\n?/g, "\n").trim();
    return text === undefined || text === "" ? undefined : text;
  }

  /** A number with a decimal point or a decimal comma, and with the unit of its field or without. */
  number(field: FieldName, unit = ""): number | undefined {
    const text = this.text(field);
    if (text === undefined) return undefined;
    const value = writtenIn(text, unit);
    if (Number.isFinite(value)) return value;
    this.complain(
      field,
      unit === "[ft_i]"
        ? IN_FEET
        : `Write a plain number${unit === "" ? "" : ` in ${unitWords(unit)}`}, such as 2.4 or 2,4.`,
    );
    return undefined;
  }

  choice<T extends string>(field: FieldName, allowed: readonly T[]): T | undefined {
    const text = this.text(field);
    const found = allowed.find((value) => value === text);
    if (text !== undefined && found === undefined) this.complain(field, `Choose one of: ${allowed.join(", ")}.`);
    return found;
  }

  quantity(field: FieldName, unit: string, within?: FieldName): SentQuantity | undefined {
    const value = this.number(field, unit);
    // Half of what a value is right within at 95 % is its standard uncertainty (normal: 1.96, rounded to 2).
    const half = within === undefined ? undefined : this.number(within, unit);
    if (value === undefined) return undefined;
    return half === undefined ? { value, unit } : { value, unit, u: half / 2 };
  }
}

const IN_FEET = "Write feet, such as 8.5, or feet and inches, such as 4' 11\".";

/** An object without what was left blank; undefined where nothing is left. */
export function filled<T extends Record<string, unknown>>(
  values: T,
): { [K in keyof T]?: NonNullable<T[K]> } | undefined {
  const kept = Object.entries(values).filter(([, value]) => value !== undefined);
  return kept.length === 0 ? undefined : (Object.fromEntries(kept) as { [K in keyof T]?: NonNullable<T[K]> });
}
