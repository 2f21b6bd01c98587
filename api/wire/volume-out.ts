import type { QuantityOut } from "./quantity.ts";
import { quantityOut } from "./quantity-out.ts";

/** A room's air volume with its 95 % interval: its u is stated or taken from common practice, so that its dof are infinite. */
export function volumeOut({ value, u }: { readonly value: number; readonly u: number }): QuantityOut {
  return quantityOut({ value, u, dof: Infinity }, "m3");
}
