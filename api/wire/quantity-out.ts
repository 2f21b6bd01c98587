import { type Estimate, interval95 } from "../../analysis/estimate.ts";
import { parseUnit } from "../../analysis/units.ts";
import type { QuantityOut } from "./quantity.ts";

/** Writes an estimate held in the base unit; `unitCode` converts it where asked for. */
export function quantityOut(estimate: Estimate, baseCode: string, unitCode = baseCode): QuantityOut {
  const unit = parseUnit(unitCode);
  const { low, high } = interval95(estimate);
  return {
    value: unit.fromBase(estimate.value),
    unit: unit.code,
    u: estimate.u / unit.scale,
    dof: estimate.dof === Infinity ? null : estimate.dof,
    low: unit.fromBase(low),
    high: unit.fromBase(high),
  };
}
