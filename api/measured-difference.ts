import { interval95 } from "../analysis/estimate.ts";
import { welchSatterthwaite } from "../analysis/welch-satterthwaite.ts";
import type { QuantityOut } from "./wire/quantity.ts";
import type { SoundOut } from "./wire/sound.ts";

interface Measured {
  readonly value: number;
  readonly u: number;
  readonly dof: number | null;
}

/** One measured figure less another of the same unit, u² = u_a² + u_b²: taken as read by meters of their own (JCGM 100:2008 eq. 10, G.4). */
export function measuredDifference(a: Measured, b: Measured, unit: string): QuantityOut {
  const { u, dof } = welchSatterthwaite([a, b].map((one) => ({ u: one.u, dof: one.dof ?? Infinity })));
  const difference = { value: a.value - b.value, u, dof };
  return { ...difference, unit, dof: Number.isFinite(dof) ? dof : null, ...interval95(difference) };
}

/** L_pA of one less that of the other [dB]; null where one is not known, or only what it stays under. */
export function noiseDifference(a: SoundOut | null, b: SoundOut | null): QuantityOut | null {
  return a === null || b === null || a.value === null || b.value === null ? null : measuredDifference(a, b, "dB");
}
