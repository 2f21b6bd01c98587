import { type Dimension, parseUnit, UnitError } from "../../analysis/units.ts";

/** A quantity as it came in, in the base unit of its dimension, with what was stated beside it. */
export interface QuantityIn {
  readonly value: number;
  /** Standard uncertainty in the base unit, null where none was stated. */
  readonly u: number | null;
}

/** What is sent of a quantity: value and standard uncertainty in the unit beside them. */
export interface StatedQuantity {
  readonly value: number;
  readonly unit: string;
  readonly u?: number | undefined;
}

type Complain = (message: string, field: "unit" | "value" | "u") => void;

/** A stated quantity in the base unit of analysis/units.ts; null after a complaint about one of its fields. */
export function inBaseUnit(
  stated: StatedQuantity,
  dimension: Dimension,
  check: (value: number) => string | null,
  complain: Complain,
): QuantityIn | null {
  const unit = unitOrIssue(stated.unit, dimension, (message) => complain(message, "unit"));
  if (!unit) return null;
  const value = unit.toBase(stated.value);
  const complaint = isComputable(value) ? check(value) : BEYOND;
  if (complaint) {
    complain(`The ${dimension} ${complaint}.`, "value");
    return null;
  }
  const u = stated.u === undefined ? null : stated.u * unit.scale;
  if (u !== null && !isComputable(u)) {
    complain(`The uncertainty of the ${dimension} ${BEYOND}.`, "u");
    return null;
  }
  return { value, u };
}

const BEYOND = "is beyond what can be computed with: 1e-12 to 1e12 in base units";

/** Uncertainties are raised to the fourth power and divided by each other: both ends must survive that as a double. */
function isComputable(x: number): boolean {
  return x === 0 || (Math.abs(x) >= 1e-12 && Math.abs(x) <= 1e12);
}

/** A complaint unless the value is above zero. */
export const positive = (value: number) => (value > 0 ? null : "must be greater than 0");
/** A complaint unless the value is zero or more. */
export const notNegative = (value: number) => (value >= 0 ? null : "must not be negative");

export function unitOrIssue(text: string, dimension: Dimension, complain: (message: string) => void) {
  try {
    return parseUnit(text, dimension);
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    complain(error.message);
    return null;
  }
}
