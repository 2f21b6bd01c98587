import { type Estimate, interval95 } from "../../analysis/estimate.ts";
import { parseUnit } from "../../analysis/units.ts";
import type { QuantityOut } from "./quantity.ts";

/** Writes an estimate held in the base unit; `unitCode` converts it where asked for. */
export function quantityOut(estimate: Estimate, baseCode: string, unitCode = baseCode): QuantityOut {
  return quantityWithin(estimate, interval95(estimate), unitCode);
}

/** The same where its 95 % interval was made otherwise, as where only a part of u belongs to the value. */
export function quantityWithin(
  { value, u, dof }: Estimate,
  { low, high }: { readonly low: number; readonly high: number },
  unitCode: string,
): QuantityOut {
  const unit = parseUnit(unitCode);
  return {
    value: unit.fromBase(value),
    unit: unit.code,
    u: u / unit.scale,
    dof: Number.isFinite(dof) ? dof : null,
    low: unit.fromBase(low),
    high: unit.fromBase(high),
  };
}
